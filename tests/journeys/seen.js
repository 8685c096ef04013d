/* What is wrong with a page as it is drawn: text that is cut, text over text, text that stands out too little, and text
   that a reader meets in another order than it stands in. Each is a list of what it is about; empty is well. */
(() => {
  const ROOM = 1.5;  // CSS pixels: glyphs may touch
  const texts = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode, owner = node.parentElement;
    const style = getComputedStyle(owner);
    if (!node.data.trim() || style.visibility != "visible") continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    const boxes = [...range.getClientRects()].filter(box => box.width > 0.5 && box.height > 0.5);
    const sheet = owner.closest("article");
    if (boxes.length) texts.push({ node, owner, boxes, style, sheet, text: node.data.trim().slice(0, 40) });
  }

  const scrolls = one => one.closest(".scroll") && getComputedStyle(one.closest(".scroll")).overflowX == "auto";
  const cut = texts.filter(({ owner, boxes }) => {
    const svg = owner.ownerSVGElement, frame = (svg || owner.closest("article") || document.body).getBoundingClientRect();
    const past = box => box.left < frame.left - 1 || box.right > frame.right + 1
      || (svg && (box.top < frame.top - 2 || box.bottom > frame.bottom + 2));
    return !scrolls(owner) && boxes.some(past);
  }).map(each => each.text);

  const over = [];
  texts.forEach((one, place) => texts.slice(place + 1).forEach(other => {
    if (one.sheet != other.sheet) return;
    if (one.owner.contains(other.node) || other.owner.contains(one.node)) return;
    const meet = one.boxes.some(a => other.boxes.some(b => {
      const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
      const tall = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
      const low = Math.min(a.height, b.height);
      return wide > ROOM && tall > Math.max(ROOM, 0.3 * low);  // lines of close print touch at their leading
    }));
    if (meet) over.push(`${one.text} / ${other.text}`);
  }));

  const parts = colour => (colour.match(/[\d.]+/g) || []).map(Number);
  const light = colour => {  // relative luminance of sRGB, WCAG 2.2 [m]
    const [red, green, blue] = parts(colour).slice(0, 3).map(each => each / 255)
      .map(each => each <= 0.04045 ? each / 12.92 : ((each + 0.055) / 1.055) ** 2.4);
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const ground = one => {
    for (let at = one; at; at = at.parentElement) {
      const colour = getComputedStyle(at).backgroundColor, alpha = parts(colour)[3];
      if (colour != "transparent" && (alpha === undefined || alpha > 0.5)) return colour;
    }
    return "rgb(255, 255, 255)";
  };
  const faint = texts.filter(({ owner, style }) => {
    const [high, low] = [light(owner.ownerSVGElement ? style.fill : style.color), light(ground(owner))].sort((a, b) => b - a);
    return (high + 0.05) / (low + 0.05) < 4.5;
  }).map(each => each.text);

  const top = one => one.getBoundingClientRect().top;
  const disordered = [...document.querySelectorAll("article, .pair > div, .printed > div")].flatMap(each => {
    const shown = [...each.children].filter(one => one.getBoundingClientRect().height > 0);
    return shown.filter((one, place) => place && top(one) < shown[place - 1].getBoundingClientRect().bottom - 3);
  }).map(one => one.textContent.slice(0, 40));
  return JSON.stringify({ cut, over, faint, disordered });
})()
