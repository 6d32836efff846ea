import assert from 'node:assert/strict';
import { completed } from '../../client/src/preview/kept-preview.ts';
import { PLAIN_VIEW, type PreviewBlock, type PreviewUpdate } from '../../server/src/protocol.ts';

const update = (version: number, ...blocks: readonly PreviewBlock[]): PreviewUpdate => ({
  uri: 'file:///quay.lesson',
  version,
  title: 'Quay',
  facts: [],
  blocks,
  bars: [],
  texts: [],
  tempo: 84,
  view: PLAIN_VIEW,
});

const first = completed(
  update(1, { id: 'title', hash: 'a', content: '<h2>Quay</h2>' }, { id: 'system', hash: 'b', content: '<svg/>' }),
  undefined,
);

describe('a preview that is kept', () => {
  it('fills in what was sent before', () => {
    const second = completed(
      update(2, { id: 'title', hash: 'c', content: '<h2>Pier</h2>' }, { id: 'system', hash: 'b' }),
      first,
    );
    assert.deepEqual(
      second?.blocks.map(({ content }) => content),
      ['<h2>Pier</h2>', '<svg/>'],
    );
    assert.equal(second?.version, 2);
  });
  it('drops what is not there any more', () => {
    assert.deepEqual(
      completed(update(2, { id: 'system', hash: 'b' }), first)?.blocks.map(({ id }) => id),
      ['system'],
    );
  });
  it('does not pass an old drawing for a new one', () => {
    assert.equal(completed(update(2, { id: 'system', hash: 'new' }), first), undefined);
    assert.equal(completed(update(2, { id: 'other', hash: 'b' }), first), undefined);
    assert.equal(completed(update(1, { id: 'title', hash: 'a' }), undefined), undefined);
  });
});
