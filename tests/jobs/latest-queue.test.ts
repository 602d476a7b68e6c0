import { describe, expect, it } from 'vitest';
import { JobCancelled, LatestQueue } from '../../src/jobs/latest-queue.ts';

type Kind = 'quick' | 'slow';

/** A job that ends when told to, and says when it began. */
function handJob(name: string, log: string[]) {
  let finish: (value: string) => void = () => undefined;
  let fail: (reason: Error) => void = () => undefined;
  const work = () => {
    log.push(name);
    return new Promise<string>((resolve, reject) => {
      finish = resolve;
      fail = reject;
    });
  };
  return { work, finish: () => finish(name), fail: (reason: Error) => fail(reason) };
}

const settled = () => new Promise((resolve) => setTimeout(resolve));

describe('the latest-wins queue', () => {
  it('runs one job, keeps one waiting and drops those between', async () => {
    const log: string[] = [];
    const queue = new LatestQueue<Kind>(['quick', 'slow']);
    const jobs = ['first', 'second', 'third', 'fourth'].map((name) => handJob(name, log));
    const outcomes = jobs.map(({ work }) => queue.ask('quick', work));
    expect(log).toEqual(['first']);
    jobs[0].finish();
    await settled();
    jobs[3].finish();
    expect(await Promise.all(outcomes)).toEqual([
      { kind: 'done', value: 'first' },
      { kind: 'cancelled' },
      { kind: 'cancelled' },
      { kind: 'done', value: 'fourth' },
    ]);
    expect(log).toEqual(['first', 'fourth']);
  });

  it('lets the kind that stands first go first, whoever asked earlier', async () => {
    const log: string[] = [];
    const queue = new LatestQueue<Kind>(['quick', 'slow']);
    const running = handJob('running', log);
    const slow = handJob('slow', log);
    const quick = handJob('quick', log);
    void queue.ask('quick', running.work);
    void queue.ask('slow', slow.work);
    void queue.ask('quick', quick.work);
    running.finish();
    await settled();
    quick.finish();
    await settled();
    expect(log).toEqual(['running', 'quick', 'slow']);
  });

  it('goes on after a failure and a stop, and says which was which', async () => {
    const log: string[] = [];
    const queue = new LatestQueue<Kind>(['quick', 'slow']);
    const failing = handJob('failing', log);
    const stopped = handJob('stopped', log);
    const first = queue.ask('quick', failing.work);
    failing.fail(new Error('no such reach'));
    expect(await first).toEqual({ kind: 'failed', reason: 'no such reach' });
    const second = queue.ask('slow', stopped.work);
    expect(queue.running).toBe('slow');
    stopped.fail(new JobCancelled('stopped'));
    expect(await second).toEqual({ kind: 'cancelled' });
    expect(queue.running).toBe(null);
    expect(await queue.ask('slow', async () => 'again')).toEqual({ kind: 'done', value: 'again' });
  });

  it('drops a waiting job when asked, not the running one', async () => {
    const log: string[] = [];
    const queue = new LatestQueue<Kind>(['quick', 'slow']);
    const running = handJob('running', log);
    const outcome = queue.ask('slow', running.work);
    const waiting = queue.ask('slow', handJob('waiting', log).work);
    queue.cancelWaiting('slow');
    expect(await waiting).toEqual({ kind: 'cancelled' });
    running.finish();
    expect(await outcome).toEqual({ kind: 'done', value: 'running' });
    expect(log).toEqual(['running']);
  });
});
