import { existsSync } from 'node:fs';
import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { isReviewed, type RefusedFile, type Reviewed } from '../report/reviewed.ts';
import { keepText, textOf } from './files.ts';
import { internalProblem, reviewedOrRefused, type ReviewSettings } from './review-settings.ts';

/** Fewer files than this are done sooner than threads are started. A review with the time domain takes seconds. */
const worthThreads = { closedForm: 24, timed: 2 };
/** Files that a thread has waiting, so that it never waits itself. */
const ahead = 2;
/** More threads than this gain nothing on what a machine has of memory. */
const mostThreads = 16;

/** What a thread is started with. */
export interface ThreadData {
  readonly tool: string;
  readonly settings: ReviewSettings;
}

/** What a thread answers: the file, and the texts that its problems point into. */
export interface ThreadAnswer {
  readonly index: number;
  readonly reviewed: Reviewed;
  readonly texts: readonly { readonly path: string; readonly text: string }[];
}

/**
 * Reviews files over the cores of the machine. What is wrong with one of them stands in its place.
 *
 * @param files     paths, and files that are refused already
 * @param settings  for all of them
 * @param take      is given each as soon as it and all before it are done, in their order
 */
export async function reviewAll({
  files,
  settings,
  take,
}: {
  files: readonly (string | RefusedFile)[];
  settings: ReviewSettings;
  take: (one: Reviewed, index: number) => void;
}): Promise<void> {
  const done = new Map<number, Reviewed>();
  let next = 0;
  const put = (index: number, one: Reviewed): void => {
    done.set(index, one);
    for (let ready = done.get(next); ready !== undefined; ready = done.get(next)) {
      done.delete(next);
      take(ready, next);
      next += 1;
    }
  };
  const open = files.flatMap((file, index) => (typeof file === 'string' ? [{ file, index }] : []));
  const tool = join(settings.root, 'dist', 'tool.js');
  const threads = Math.min(availableParallelism(), open.length, mostThreads);
  const isWorth = open.length >= (settings.closedForm ? worthThreads.closedForm : worthThreads.timed);
  files.forEach((file, index) => {
    if (typeof file !== 'string') put(index, file);
  });
  if (threads > 1 && isWorth && existsSync(tool)) await inThreads({ open, threads, data: { tool, settings }, put });
  else for (const { file, index } of open) put(index, reviewedOrRefused({ file, settings }));
}

interface Job {
  readonly file: string;
  readonly index: number;
}

/** What a thread runs: the tool as it was built, which loads in a few milliseconds. */
const threadScript = `require(require('node:worker_threads').workerData.tool).engine.serveReviews();`;

async function inThreads({
  open,
  threads,
  data,
  put,
}: {
  open: readonly Job[];
  threads: number;
  data: ThreadData;
  put: (index: number, one: Reviewed) => void;
}): Promise<void> {
  // loaded here: a single file has no use for it
  const { Worker } = await import('node:worker_threads');
  const waiting = [...open];
  const runThread = (): Promise<void> =>
    new Promise((resolve) => {
      const worker = new Worker(threadScript, { eval: true, workerData: data });
      const held: Job[] = [];
      const feed = (): void => {
        for (let job = waiting.shift(); job !== undefined; job = held.length < ahead ? waiting.shift() : undefined) {
          held.push(job);
          worker.postMessage(job);
        }
        if (held.length === 0) worker.postMessage(undefined);
      };
      worker.on('message', ({ index, reviewed, texts }: ThreadAnswer) => {
        texts.forEach(keepText);
        held.splice(
          held.findIndex((job) => job.index === index),
          1,
        );
        put(index, reviewed);
        feed();
      });
      let cause: unknown = 'the thread that reviewed it ended';
      worker.on('error', (error) => (cause = error));
      worker.on('exit', () => {
        // a thread that ended early had a file that did it; what waited behind it goes to another
        const [culprit, ...others] = held;
        waiting.unshift(...others);
        if (culprit === undefined) {
          resolve();
          return;
        }
        put(culprit.index, { file: culprit.file, problems: [internalProblem({ file: culprit.file, error: cause })] });
        void runThread().then(resolve);
      });
      feed();
    });
  await Promise.all(Array.from({ length: threads }, runThread));
}

/** What a thread does: reviews the files that it is sent, until it is sent nothing. */
export async function serveReviews(): Promise<void> {
  const thread = await import('node:worker_threads');
  const { parentPort } = thread;
  const { settings } = thread.workerData as ThreadData;
  parentPort?.on('message', (job: Job | undefined) => {
    if (job === undefined) {
      parentPort.close();
      return;
    }
    const reviewed = reviewedOrRefused({ file: job.file, settings });
    const paths = isReviewed(reviewed) ? [] : reviewed.problems.flatMap(({ at }) => (at === undefined ? [] : [at.path]));
    const texts = [...new Set(paths)].flatMap((path) => {
      const text = textOf(path);
      return text === undefined ? [] : [{ path, text }];
    });
    parentPort.postMessage({ index: job.index, reviewed, texts } satisfies ThreadAnswer);
  });
}
