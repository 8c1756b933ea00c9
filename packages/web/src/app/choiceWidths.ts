/**
 * Makes every choice in a sentence as wide as the words that are chosen, in browsers without `field-sizing: content`
 * (CSS Basic User Interface Module Level 4), where it would be as wide as its longest words and leave a hole in the line.
 */
export function fitChoices(): void {
  const pen = document.createElement('canvas').getContext('2d');
  if (pen === null) return;
  const fit = (): void => {
    for (const choice of document.querySelectorAll<HTMLSelectElement>('select.clause')) {
      const { fontWeight, fontSize, fontFamily, paddingLeft, paddingRight } = getComputedStyle(choice);
      // The whole shorthand is empty in some browsers, where it can't say everything.
      pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
      const text = pen.measureText(choice.selectedOptions[0]?.text ?? '').width;
      const width = `${Math.ceil(text + Number.parseFloat(paddingLeft) + Number.parseFloat(paddingRight)) + 2}px`;
      if (choice.style.width !== width) choice.style.width = width;
    }
  };
  let asked = 0;
  const soon = (): void => {
    cancelAnimationFrame(asked);
    asked = requestAnimationFrame(fit);
  };
  new MutationObserver(soon).observe(document.body, { childList: true, characterData: true, subtree: true });
  document.addEventListener('change', soon);
  document.fonts.addEventListener('loadingdone', soon);
  soon();
}
