/** Where the picture lies on the stage: CSS pixels per pixel of the picture, and its upper left corner. */
export interface StageView {
  readonly scale: number;
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** Wall left free around the whole picture, in CSS pixels. */
const RIM = 20;
/** Largest magnification: 16 CSS pixels for a pixel of the picture. */
const LARGEST = 16;

/** The whole picture, as large as it fits, never larger than its own pixels. */
export function wholeView(picture: Size, stage: Size): StageView {
  const scale = Math.min(
    1,
    Math.max(1, stage.width - 2 * RIM) / picture.width,
    Math.max(1, stage.height - 2 * RIM) / picture.height,
  );
  return settle({ scale, x: 0, y: 0 }, picture, stage);
}

/** The view after zooming by a factor with one place of the stage held still. */
export function zoomAt(
  view: StageView,
  factor: number,
  at: { x: number; y: number },
  picture: Size,
  stage: Size,
): StageView {
  const least = wholeView(picture, stage).scale;
  const scale = Math.min(LARGEST, Math.max(least, view.scale * factor));
  const ratio = scale / view.scale;
  return settle(
    { scale, x: at.x - (at.x - view.x) * ratio, y: at.y - (at.y - view.y) * ratio },
    picture,
    stage,
  );
}

export function moveBy(view: StageView, dx: number, dy: number, picture: Size, stage: Size): StageView {
  return settle({ ...view, x: view.x + dx, y: view.y + dy }, picture, stage);
}

/** A small side is centred, a large one covers the stage up to its rim. */
export function settle(view: StageView, picture: Size, stage: Size): StageView {
  return {
    scale: view.scale,
    x: settleSide(view.x, picture.width * view.scale, stage.width),
    y: settleSide(view.y, picture.height * view.scale, stage.height),
  };
}

function settleSide(start: number, length: number, room: number): number {
  if (length <= room - 2 * RIM) return (room - length) / 2;
  return Math.min(RIM, Math.max(room - RIM - length, start));
}

/** The part of the picture that is on the stage, in its own pixels; null when nothing is. */
export function visiblePart(view: StageView, picture: Size, stage: Size) {
  const x = Math.max(0, Math.floor(-view.x / view.scale));
  const y = Math.max(0, Math.floor(-view.y / view.scale));
  const right = Math.min(picture.width, Math.ceil((stage.width - view.x) / view.scale));
  const bottom = Math.min(picture.height, Math.ceil((stage.height - view.y) / view.scale));
  return right > x && bottom > y ? { x, y, width: right - x, height: bottom - y } : null;
}

/** A point of the stage in shares of the picture, or null beside it. */
export function pictureShare(
  view: StageView,
  at: { x: number; y: number },
  picture: Size,
): { x: number; y: number } | null {
  const x = (at.x - view.x) / (view.scale * picture.width);
  const y = (at.y - view.y) / (view.scale * picture.height);
  return x >= 0 && x < 1 && y >= 0 && y < 1 ? { x, y } : null;
}
