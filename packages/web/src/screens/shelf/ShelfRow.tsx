import { memo } from 'react';
import { routeHash } from '../../app/route.ts';
import { when } from '../../parts/when.ts';
import { saveDossier } from '../../state/dossiers.ts';
import { removeWork, takeUp } from '../../state/shelf.ts';
import type { ShelfEntry } from '../../storage/keeper.ts';

/** A work on the shelf: small picture, title, where it stands, and what stands between it and done. */
export const ShelfRow = memo(function ShelfRow({ entry }: { entry: ShelfEntry }) {
  const { id, title, version, state, touched, topFinding, lastLook } = entry;
  const source = thumbAddress(entry);
  return (
    <li className="row" data-work={id}>
      <a href={routeHash({ screen: 'check', work: id })} className="row-open">
        <span className="mat">{source && <img src={source} alt="" loading="lazy" decoding="async" />}</span>
        <span className="row-words">
          <span className="row-title">{title}</span>
          <span className="caption quiet">
            version {version} · {state} · {when(touched)}
            {lastLook && ` · last look ${when(lastLook.at)}`}
          </span>
          <span className="row-finding">{findingWords(topFinding)}</span>
        </span>
      </a>
      {state === 'resting' && (
        <button type="button" className="clause caption" onClick={() => takeUp(id)}>
          take up<span className="unseen"> again: {title}</span>
        </button>
      )}
      <button type="button" className="clause caption" onClick={() => void saveDossier(id, title)}>
        save its dossier<span className="unseen">: {title}</span>
      </button>
      <button type="button" className="clause caption" onClick={() => void removeWork(entry)}>
        take off<span className="unseen"> the shelf: {title}</span>
      </button>
    </li>
  );
});

function findingWords(topFinding: string | null | undefined): string {
  if (topFinding === undefined) return 'Not read yet.';
  return topFinding ?? 'No note is open.';
}

/** Addresses of small pictures by what they show; a few kilobytes each, kept as long as the page. */
const addresses = new Map<string, string>();

function thumbAddress({ thumb, hashes }: ShelfEntry): string | null {
  if (!thumb) return null;
  const key = hashes.at(-1) ?? '';
  const address = addresses.get(key) ?? URL.createObjectURL(thumb);
  addresses.set(key, address);
  return address;
}
