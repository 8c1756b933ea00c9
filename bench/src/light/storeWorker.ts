import { workerData } from 'node:worker_threads';
import { makeOne } from './store.ts';

await makeOne(workerData.folder, workerData.name);
