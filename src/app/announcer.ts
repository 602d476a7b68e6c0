import { LIMIT_WORDS } from '../kinematics/limits.ts';
import { judgePose } from '../state/derived.ts';
import { type DesignStore, liveDocument } from '../state/design-store.ts';
import { announce, type NoticesStore } from '../state/notices-store.ts';
import type { SessionStore } from '../state/session-store.ts';

/** Quiet time before a changed verdict is read out [ms]: a drag passes many, only the last one matters. */
const SETTLED = 700;

/** Has a screen reader told, politely, when firmness or a leg's warning changes and stays changed. */
export function followVerdict(design: DesignStore, session: SessionStore, notices: NoticesStore): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const present = () => spokenVerdict(design, session);
  let told = present();
  const settle = () => {
    const now = present();
    if (now === told) return;
    told = now;
    announce(notices, now);
  };
  const wait = () => {
    clearTimeout(timer);
    timer = setTimeout(settle, SETTLED);
  };
  const stops = [design.subscribe(wait), session.subscribe((state, before) => state.pose !== before.pose && wait())];
  return () => {
    clearTimeout(timer);
    for (const stop of stops) stop();
  };
}

function spokenVerdict(design: DesignStore, session: SessionStore): string {
  const { legs, independence } = judgePose(liveDocument(design.getState()), session.getState().pose);
  const warnings = legs.flatMap(({ leg, violations }) =>
    violations.map((limit) => `Leg ${leg}: ${LIMIT_WORDS[limit]} limit.`),
  );
  return [`Firmness: ${independence.verdict.word}.`, ...warnings].join(' ');
}
