import {
  type Census,
  checkBaseline,
  checkIntent,
  checkRecipe,
  editCensus,
  editView,
  examine,
  makeViews,
  OPEN_INTENT,
  readingInput,
  readyRecipe,
  rowEditor,
  SRGB,
  takeCensus,
  type Views,
} from '@halflight/engine';
import { settingsOf } from '../../../packages/web/src/document/settings.ts';
import { changeJson, parseBytes } from '../json.ts';
import { expectThat, expectWords, type Kind } from '../kind.ts';
import { BASELINES, INTENTS, PAINTING, RECIPES } from '../samples.ts';

const FACTS = { name: 'ferry.png', width: 48, height: 32, depth: 8, profile: 'sRGB', tagged: true } as const;

interface Painting {
  readonly census: Census;
  readonly views: Views;
}
const painting = (): Painting => ({ census: takeCensus(PAINTING), views: makeViews(PAINTING) });

/** An edit: looked through, and made on pixels, view and census. */
export function recipeKind(): Kind {
  const { census, views } = painting();
  return {
    make: (chance) => changeJson(chance.one(RECIPES), chance),
    async feed(bytes) {
      const checked = checkRecipe(parseBytes(bytes));
      if (!checked.ok) {
        expectWords(checked.trouble);
        return 'refused';
      }
      const ready = readyRecipe(checked.value, views.close);
      const out = new Uint8Array(PAINTING.data.length);
      rowEditor(ready, PAINTING, { space: SRGB, depth: 8 })(0, PAINTING.height, out);
      expectThat(
        editView(ready, views.close, SRGB).rgb.every(Number.isFinite),
        'an edit that makes no colour',
      );
      const everywhere = readyRecipe(checked.value, null);
      expectThat(editCensus(everywhere, census, SRGB).rgb.every(Number.isFinite), 'a census without colours');
      return 'read';
    },
  };
}

/** An intent or a baseline: looked through, and a picture read against it. */
function readingKind(samples: readonly object[], part: 'intent' | 'baseline'): Kind {
  const { census, views } = painting();
  const open = readingInput({ picture: FACTS, census, views, intent: OPEN_INTENT });
  const before = { input: open, examination: examine(open, []) };
  return {
    make: (chance) => changeJson(chance.one(samples), chance),
    async feed(bytes) {
      const value = parseBytes(bytes);
      const checked = part === 'intent' ? checkIntent(value) : checkBaseline(value);
      if (!checked.ok) {
        expectWords(checked.trouble);
        return 'refused';
      }
      const input = { ...open, [part]: checked.value };
      const { findings, settled, undecided, readings } = examine(input, [], before);
      for (const { text, todo, severity } of [...findings, ...settled]) {
        expectWords(text);
        expectWords(todo);
        expectThat(severity >= 0 && severity <= 1, `a severity of ${severity}`);
      }
      for (const line of undecided) expectWords(line);
      for (const { fine } of readings) if (fine !== null) expectWords(fine);
      return 'read';
    },
  };
}
export const intentKind = (): Kind => readingKind(INTENTS, 'intent');
export const baselineKind = (): Kind => readingKind(BASELINES, 'baseline');

/** What the browser keeps of the artist's settings. */
export function settingsKind(): Kind {
  const sample = { wall: 'paper', ground: 'paper', singleKeys: false, cautioned: true };
  return {
    make: (chance) => changeJson(sample, chance),
    async feed(bytes) {
      const { wall, ground, singleKeys, cautioned } = settingsOf(new TextDecoder().decode(bytes));
      expectThat(['dark', 'middle', 'paper'].includes(wall), `a wall of ${wall}`);
      expectThat(['dark', 'paper'].includes(ground), `a ground of ${ground}`);
      expectThat(typeof singleKeys === 'boolean' && typeof cautioned === 'boolean', 'a switch that is none');
      return 'read';
    },
  };
}
