/** Neutral greys by their CIELAB L*; the pages know no other colour than those of pictures. */
export const GREY = {
  ink: '#1f1f1f', // 12
  quiet: '#505050', // 34
  edge: '#7c7c7c', // 52
  faint: '#a8a8a8', // 69
  hairline: '#c6c6c6', // 80
  wall: '#777777', // 50
  ground: '#e8e8e8', // 92
  raised: '#eeeeee', // 94
  paper: '#ffffff',
} as const;

/** Sizes of type, in units of 1/96 inch. */
export const SIZE = { caption: 12, text: 15, note: 18, title: 24 } as const;
export type TextSize = keyof typeof SIZE;
