import { mkdirSync, writeFileSync } from 'node:fs';
import type { Server } from 'node:http';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { describeDemo } from '../../src/serve/places.ts';
import { serve } from '../../src/serve/server.ts';
import { newFolder } from '../commandLine.ts';

const folder = newFolder();
const HEADERS = { 'Cross-Origin-Opener-Policy': 'same-origin', 'X-Content-Type-Options': 'nosniff' };
let server: Server;
let address: string;

beforeAll(async () => {
  mkdirSync(join(folder, 'assets'));
  writeFileSync(join(folder, 'index.html'), '<!doctype html><title>App</title>');
  writeFileSync(join(folder, 'assets/codec.wasm'), Buffer.from([0, 97, 115, 109]));
  ({ server, address } = await serve(folder, HEADERS, 0));
});
afterAll(() => server.close());

describe('the server', () => {
  test('is on this machine only', () => {
    expect(address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect(server.address()).toMatchObject({ address: '127.0.0.1' });
  });

  test.each([
    ['', 'text/html'],
    ['assets/codec.wasm', 'application/wasm'],
  ])('sends /%s as %s with every header', async (path, type) => {
    const response = await fetch(address + path);
    expect(response.status).toBe(200);
    expect(response.headers.get('content-type')).toContain(type);
    for (const [name, value] of Object.entries(HEADERS)) expect(response.headers.get(name)).toBe(value);
  });

  test.each(['assets/gone.js', '../package.json', '%2e%2e/package.json', 'demo/../../secret.png'])(
    'has no /%s',
    async (path) => {
      expect((await fetch(address + path)).status).toBe(404);
    },
  );

  test('lists the demo pictures, as far as they are painted', async () => {
    const list = await (await fetch(`${address}demo/index.json`)).json();
    expect(Array.isArray(list)).toBe(true);
  });

  test('refuses a port that is taken', async () => {
    await expect(serve(folder, HEADERS, Number(new URL(address).port))).rejects.toMatchObject({
      code: 'EADDRINUSE',
    });
  });
});

test('a demo picture is listed by what it shows', () => {
  expect(describeDemo('ferry-landing-4.png')).toEqual({
    file: 'ferry-landing-4.png',
    title: 'Ferry landing',
    version: 4,
  });
});
