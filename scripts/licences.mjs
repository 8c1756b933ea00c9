// `node scripts/licences.mjs`: writes THIRD_PARTY.md, the libraries that are shipped, with the text of each licence.
import { writeFileSync } from 'node:fs';
import { thirdParty } from './house/licences.mjs';
import { ROOT } from './house/run.mjs';

writeFileSync(`${ROOT}THIRD_PARTY.md`, thirdParty());
