import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { expandedMarkerSet } from '../../src/node/expanded-marker-set.ts';
import { sha256Of } from '../../src/node/sha256.ts';

const shipped = new URL('../../shared/marker-sets/', import.meta.url);
const built = new URL('../../dist/expanded-marker-sets/', import.meta.url);

describe('the marker sets expanded by the build', () => {
  const files = readdirSync(shipped);

  it.each(files)('%s is what parsing its file gives', (file) => {
    const bytes = readFileSync(new URL(file, shipped));
    const sha256 = sha256Of(bytes);
    const expanded = JSON.parse(readFileSync(new URL(`${sha256}.json`, built), 'utf8'));
    expect(expanded).toStrictEqual(parseMarkerSet(bytes.toString('utf8'), sha256));
    expect(expanded.sha256).toBe(sha256);
  });

  it('are those that ship and no others', () => {
    expect(readdirSync(built)).toHaveLength(files.length);
  });

  it('are not there for what runs from the sources, nor for a hash that is none', async () => {
    const sha256 = sha256Of(readFileSync(new URL(files[0]!, shipped)));
    expect(await expandedMarkerSet(sha256)).toBeNull();
    expect(await expandedMarkerSet('../../package')).toBeNull();
  });
});
