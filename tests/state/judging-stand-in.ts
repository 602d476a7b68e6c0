import type { JudgingService } from '../../src/jobs/judging-workers.ts';
import { CANCELLED, type JobOutcome } from '../../src/jobs/outcome.ts';
import type { PoseCurves } from '../../src/reach/field/pose-curves.ts';
import type { BoxDecision } from '../../src/reach/prove/prove.ts';
import type { HelpReport } from '../../src/reach/what-helps.ts';

/** One question, waiting to be answered by the test. */
interface Call<Question, Value> {
  readonly question: Question;
  readonly report: (share: number) => void;
  readonly answer: (value: Value) => void;
  readonly end: (outcome: JobOutcome<Value>) => void;
}

type QuestionOf<Job extends 'curves' | 'prove' | 'helps'> = Parameters<JudgingService[Job]>[0];

/** A service whose questions a test answers when it likes. */
export function standInJudging() {
  const curves: Call<QuestionOf<'curves'>, PoseCurves>[] = [];
  const prove: Call<QuestionOf<'prove'>, BoxDecision>[] = [];
  const helps: Call<QuestionOf<'helps'>, HelpReport>[] = [];
  const asked = <Question, Value>(
    calls: Call<Question, Value>[],
    question: Question,
    report: (share: number) => void = () => undefined,
  ) =>
    new Promise<JobOutcome<Value>>((end) => {
      calls.push({ question, report, end, answer: (value) => end({ kind: 'done', value }) });
    });
  const service: JudgingService = {
    curves: (question) => asked(curves, question),
    prove: (question, report) => asked(prove, question, report),
    helps: (question, report) => asked(helps, question, report),
    stop: (job) => (job === 'prove' ? prove.at(-1) : helps.at(-1))?.end(CANCELLED),
  };
  return { service, curves, prove, helps };
}

/** Lets promises that are settled by now do what hangs on them. */
export const settled = () => new Promise((done) => setTimeout(done));
