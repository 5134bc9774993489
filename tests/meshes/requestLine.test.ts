/** Only what is still wanted is delivered, and dragging builds no queue. */
import { expect, test } from 'vitest';
import { RequestLine, type Outcome } from '../../src/meshes/meshClient.ts';

function slowWorker() {
  const started: number[] = [];
  const finish: ((fail?: string) => void)[] = [];
  const line = new RequestLine<number, string>(
    (request) =>
      new Promise((resolve, reject) => {
        started.push(request);
        finish.push((fail) => (fail === undefined ? resolve(`answer ${request}`) : reject(new Error(fail))));
      }),
  );
  const delivered: Outcome<string>[] = [];
  return {
    started,
    finish,
    line,
    delivered,
    ask: (n: number) => line.ask(n, (outcome) => delivered.push(outcome)),
  };
}

const turn = () => new Promise((resolve) => setTimeout(resolve, 0));

test('of many requests while one is at work only the newest follows, and the overtaken answer is dropped', async () => {
  const { started, finish, delivered, ask } = slowWorker();
  for (const n of [1, 2, 3, 4]) ask(n);
  expect(started).toEqual([1]);
  finish[0]();
  await turn();
  expect(delivered).toEqual([]);
  expect(started).toEqual([1, 4]);
  finish[1]();
  await turn();
  expect(delivered).toEqual([{ answer: 'answer 4' }]);
});

test('a withdrawn request delivers nothing; the next one works', async () => {
  const { finish, line, delivered, ask } = slowWorker();
  ask(1);
  line.withdraw();
  finish[0]();
  await turn();
  expect(delivered).toEqual([]);
  ask(2);
  finish[1]();
  await turn();
  expect(delivered).toEqual([{ answer: 'answer 2' }]);
});

test('a failure is delivered as a sentence and the line goes on', async () => {
  const { finish, delivered, ask } = slowWorker();
  ask(1);
  finish[0]('out of memory');
  await turn();
  ask(2);
  finish[1]();
  await turn();
  expect(delivered).toEqual([{ error: 'out of memory' }, { answer: 'answer 2' }]);
});
