import { useRef } from 'react';
import { Chosen } from '../../parts/Chosen.tsx';
import { setHandover, settle, useHandover } from '../../state/handover.ts';
import { trouble } from '../../state/session.ts';
import { SPACE_NAMES } from './words.ts';

/** The colour space of the file; a profile is chosen from a file. */
export function SpaceWords() {
  const { settings } = useHandover();
  const { space } = settings;
  const input = useRef<HTMLInputElement>(null);
  const take = async (file: File | undefined): Promise<void> => {
    if (!file) return;
    try {
      const bytes = new Uint8Array(await file.arrayBuffer());
      const { openProfile } = await import('@halflight/files/handover');
      openProfile(bytes, file.name);
      setHandover({
        profile: bytes,
        settings: { ...settings, space: { profile: file.name, intent: 'relative', blackPoint: true } },
      });
    } catch (error) {
      trouble('writing', (error as Error).message);
    }
  };
  return (
    <>
      , in{' '}
      <Chosen
        label="Colour space of the file"
        value={typeof space === 'string' ? space : 'profile'}
        options={[
          ...SPACE_NAMES,
          ['profile', typeof space === 'string' ? 'a profile from a file …' : space.profile],
        ]}
        onChoose={(value) => {
          if (value === 'profile') input.current?.click();
          else settle({ space: value as (typeof SPACE_NAMES)[number][0] });
        }}
      />
      {typeof space !== 'string' && (
        <>
          {' '}
          with{' '}
          <Chosen
            label="Rendering intent"
            value={space.intent}
            options={[
              ['relative', 'relative colorimetric intent'],
              ['perceptual', 'perceptual intent'],
            ]}
            onChoose={(value) => settle({ space: { ...space, intent: value as typeof space.intent } })}
          />
          , black point{' '}
          <Chosen
            label="Black point"
            value={space.blackPoint ? 'yes' : 'no'}
            options={[
              ['yes', 'compensated'],
              ['no', 'as it is'],
            ]}
            onChoose={(value) => settle({ space: { ...space, blackPoint: value === 'yes' } })}
          />
        </>
      )}
      .
      <input
        ref={input}
        type="file"
        hidden
        aria-label="Profile file"
        accept=".icc,.icm"
        onChange={(event) => {
          void take(event.target.files?.[0]);
          event.target.value = '';
        }}
      />
    </>
  );
}
