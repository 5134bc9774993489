/** Answers handed to the tab that has the design, over Node's own BroadcastChannel. */
import { afterAll, afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { takeAnswers } from '../../src/app/show/handOver.ts';

const SOON = () => Date.now() + 1_000;

describe('a tab that takes answers', () => {
  let asker: BroadcastChannel;
  const told: unknown[] = [];
  const record = vi.fn((id: string, _fragment: string) => (id === 'mine' ? 'It is recorded.' : null));
  const stop = takeAnswers(record);
  afterAll(stop);

  beforeEach(() => {
    asker = new BroadcastChannel('kerfweave answers');
    asker.addEventListener('message', ({ data }) => told.push(data));
    told.length = 0;
    record.mockClear();
  });
  afterEach(() => asker.close());

  const ask = async (data: unknown) => {
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a channel is of one origin
    asker.postMessage(data);
    // Messages arrive in order: this one is answered last.
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- as above
    asker.postMessage({ asked: 'last', id: 'mine', fragment: '', until_ms: SOON() });
    await vi.waitFor(() => expect(told.at(-1)).toMatchObject({ told: 'last' }));
  };

  it('records what is for it, and says so to who asked', async () => {
    await ask({ asked: 'a', id: 'mine', fragment: 'd=1.x', until_ms: SOON() });
    expect(record).toHaveBeenNthCalledWith(1, 'mine', 'd=1.x');
    expect(told[0]).toEqual({ told: 'a', words: 'It is recorded.' });
  });

  it('leaves alone what comes too late: by then it has gone into a copy', async () => {
    await ask({ asked: 'a', id: 'mine', fragment: 'd=1.x', until_ms: Date.now() - 1 });
    expect(record).toHaveBeenCalledTimes(1);
    expect(told).toHaveLength(1);
  });

  it('says nothing for a design that is not its own', async () => {
    await ask({ asked: 'a', id: 'theirs', fragment: 'd=1.x', until_ms: SOON() });
    expect(record).toHaveBeenCalledTimes(2);
    expect(told).toHaveLength(1);
  });

  it.each([
    null,
    'x',
    [],
    {},
    { asked: 1, id: 'mine', fragment: '', until_ms: 1e15 },
    { told: 'a', words: 'x' },
    { asked: 'a', id: 'mine', fragment: '', until_ms: '9999999999999' },
  ])('takes %j for no answer', async (data) => {
    await ask(data);
    expect(record).toHaveBeenCalledTimes(1);
    expect(told).toHaveLength(1);
  });
});
