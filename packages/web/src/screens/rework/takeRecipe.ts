import { checkRecipe } from '@halflight/engine';
import { perform } from '../../state/edit.ts';
import { say, set, trouble } from '../../state/session.ts';

/** Takes the edit of a file in place of the present one; undo brings that back. */
export function takeRecipeFile(): void {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = '.json,application/json';
  input.addEventListener('change', () => void take(input.files?.[0]));
  input.click();
}

async function take(file: File | undefined): Promise<void> {
  if (!file) return;
  const checked = checkRecipe(parsed(await file.text()));
  if (checked.ok) {
    perform({ kind: 'takeRecipe', title: `taking the edit of “${file.name}”`, recipe: checked.value });
    set({ openNote: null });
    say('The edit is taken.');
  } else {
    trouble('writing', `“${file.name}” holds no edit that can be used. ${checked.trouble}`);
  }
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
