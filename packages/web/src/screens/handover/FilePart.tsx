import {
  ENDINGS,
  fileName,
  type HandoverSettings,
  nameTrouble,
  PRESETS,
  type PresetName,
  planSize,
  type Recipe,
  repaintPlaces,
} from '@halflight/engine';
import { proxy } from 'comlink';
import type { Work } from '../../document/work.ts';
import { Bits } from '../../parts/Bits.tsx';
import { Chosen } from '../../parts/Chosen.tsx';
import { NoteFrame } from '../../parts/NoteFrame.tsx';
import { Value } from '../../parts/Value.tsx';
import { Ways } from '../../parts/Ways.tsx';
import type { OpenedPicture } from '../../picture/desk.ts';
import { pictures } from '../../state/desks.ts';
import { perform } from '../../state/edit.ts';
import { settle, takePreset, useHandover } from '../../state/handover.ts';
import { say, useSession } from '../../state/session.ts';
import { type Thing, tell, useWrite } from '../../state/write.ts';
import { SizeWords } from './SizeWords.tsx';
import { SpaceWords } from './SpaceWords.tsx';
import { FORMATS, fileWords, OCCASIONS } from './words.ts';

/** The file itself: what for, how large, in which colours, with which words beside the pixels. */
export function FilePart({ picture, recipe }: { picture: OpenedPicture; recipe: Recipe }) {
  const { settings, profile } = useHandover();
  const running = useWrite((state) => state.running !== null);
  const { facts } = picture;
  const { format, depth, quality, sharpen, metadata, size } = settings;
  const { sentence, notes, possible } = fileWords(facts, settings);
  const badName = nameTrouble(settings.name);
  const plan = planSize(facts, size);
  const shownName = plan.ok
    ? `${fileName(settings.name, {
        name: facts.name.replace(/\.[A-Za-z0-9]{1,5}$/, ''),
        title: metadata.title,
        preset: settings.preset,
        width: plan.value.width,
        height: plan.value.height,
        number: 1,
      })}.${ENDINGS[format]}`
    : '';
  const thing: Thing = {
    name: shownName,
    async make() {
      const places = repaintPlaces(useSession.getState().seen?.findings ?? []);
      const made = await pictures.desk.handOver(recipe, settings, profile, places, proxy(tell));
      if (made && made.notes.length > 0) say(made.notes.join(' '));
      return made;
    },
  };
  const lossless = format === 'png' || format === 'tiff' || format === 'openraster';
  return (
    <NoteFrame name="handover file" sentence={sentence} aside={notes.join(' ')}>
      <p>
        It is for{' '}
        <Chosen
          label="What the file is for"
          value={settings.preset}
          options={OCCASIONS}
          onChoose={(name) => takePreset(name as PresetName)}
        />
        ; everything below can be changed.
      </p>
      {format === 'openraster' ? (
        <p>
          In layers it is as large as it was painted: the picture, each step of the edit over it, and a hidden
          guide layer where something is to be repainted.
        </p>
      ) : (
        <SizeWords />
      )}
      {size.fit !== 'own' && (
        <p>
          It is sharpened by{' '}
          <Value
            label="Sharpening after the change of size"
            value={sharpen}
            min={0}
            max={100}
            step={5}
            digits={0}
            unit={' %'}
            onChange={(value) => settle({ sharpen: value })}
          />
          .
        </p>
      )}
      <p>
        It is written as{' '}
        <Chosen
          label="Format of the file"
          value={format}
          options={Object.entries(FORMATS)}
          onChoose={(value) => settle(asFormat(value as typeof format, settings))}
        />{' '}
        with{' '}
        {lossless ? (
          <Bits depth={depth} onChoose={(next) => settle({ depth: next })} />
        ) : (
          <>
            8 bits at quality{' '}
            <Value
              label="Quality"
              value={quality}
              min={1}
              max={100}
              step={1}
              digits={0}
              onChange={(value) => settle({ quality: value })}
            />
          </>
        )}
        <SpaceWords />
      </p>
      <TextWords />
      <label className="handover-text">
        Its name
        <input value={settings.name} onChange={(event) => settle({ name: event.target.value })} />
      </label>
      <p className="caption quiet">
        {badName ??
          `“${shownName}”. {name}, {title}, {width}, {height} and {preset} stand for what they say.`}
      </p>
      {!running && possible && !badName && (
        <p className="answers">
          <Ways thing={thing} of={JSON.stringify([recipe, settings])} what="the picture" />
        </p>
      )}
    </NoteFrame>
  );
}

/** Layers keep the picture's own size, and a space of curves. */
function asFormat(
  format: HandoverSettings['format'],
  { space }: HandoverSettings,
): Partial<HandoverSettings> {
  if (format !== 'openraster') return { format };
  const { size } = PRESETS.layered;
  return { format, size, space: typeof space === 'string' ? space : 'own' };
}

/** What is written beside the pixels. */
function TextWords() {
  const { metadata } = useHandover((state) => state.settings);
  const change = (next: Partial<typeof metadata>): void => settle({ metadata: { ...metadata, ...next } });
  const others = metadata.keepLocation ? 'place' : metadata.keepOthers ? 'others' : 'none';
  const field = (label: string, key: 'title' | 'author' | 'rights', placeholder: string) => (
    <label className="handover-text">
      {label}
      <input
        value={metadata[key]}
        placeholder={placeholder}
        onChange={(event) => change({ [key]: event.target.value })}
      />
    </label>
  );
  return (
    <>
      {field('Title beside the pixels', 'title', 'left out when empty')}
      {field('Author', 'author', 'left out when empty')}
      {field('Rights', 'rights', '© and a year, for instance')}
      <p>
        Of what else the picture’s file says{' '}
        <Chosen
          label="Data beside the pixels"
          value={others}
          options={[
            ['none', 'nothing is kept'],
            ['others', 'all is kept but the place'],
            ['place', 'all is kept, the place too'],
          ]}
          onChoose={(value) => change({ keepOthers: value !== 'none', keepLocation: value === 'place' })}
        />
        .
      </p>
    </>
  );
}

/** The last word is the artist's: what was handed over is delivered when they say so. */
export function DeliveredWords({ work }: { work: Work }) {
  const { done } = useWrite();
  const writable = useSession((session) => session.writable);
  if (!done || !writable || work.state === 'delivered') return null;
  return (
    <p>
      Once it has arrived, this work can be{' '}
      <button
        type="button"
        className="clause"
        onClick={() => perform({ kind: 'setState', state: 'delivered' })}
      >
        called delivered
      </button>
      .
    </p>
  );
}
