import { Pause, Play, X } from 'lucide-react';
import { memo } from 'react';
import { useStore } from 'zustand';
import type { LooseMotionPlay } from '../../state/session/session-store.ts';
import { sessionStore } from '../../state/stores.ts';
import { Button } from '../../ui/Button.tsx';
import { Group } from '../../ui/Group.tsx';
import { directionWords, magnificationText, motionWords } from '../../words/firmness.ts';
import { fixedText } from '../../words/numbers.ts';
import { useJudgement } from '../pose-binding.ts';
import styles from './motion.module.css';
import { usePhase, useReducedMotion } from './usePhase.ts';

const change = (part: Partial<LooseMotionPlay>): void =>
  sessionStore.setState(({ looseMotion }) => ({ looseMotion: { ...looseMotion, ...part } }));

/** The motion that the legs resist least: in words, and on the drawing. */
export const LooseMotionPanel = memo(function LooseMotionPanel() {
  return (
    <Group title="Loosest motion" brief={<Brief />}>
      <Words />
      <Player />
      <Axis />
    </Group>
  );
});

const Brief = () => magnificationText(useJudgement().independence.magnification);

function Words() {
  const { loosestMotion, characteristicLength } = useJudgement().independence;
  return <p className={styles['words']}>{motionWords(loosestMotion, characteristicLength)}</p>;
}

function Axis() {
  const { axis } = useJudgement().independence.loosestMotion;
  return axis ? (
    <p className={styles['axis']}>
      Axis along {directionWords(axis.direction)}, {fixedText(axis.pitch, 1)} mm of travel per radian. Drawn much larger
      than it is.
    </p>
  ) : (
    <p className={styles['axis']}>A plain shift, without a turn. Drawn much larger than it is.</p>
  );
}

function Player() {
  const shown = useStore(sessionStore, ({ looseMotion }) => looseMotion.shown);
  const playing = useStore(sessionStore, ({ looseMotion }) => looseMotion.playing);
  const reduced = useReducedMotion();
  if (reduced) {
    return (
      <div className={styles['player']}>
        <Button aria-pressed={shown} onClick={() => change({ shown: !shown, playing: false })}>
          {shown ? 'Hide the two ends' : 'Show its two ends'}
        </Button>
        <span>Drawn as two ghosts, since the system asks for little motion.</span>
      </div>
    );
  }
  return (
    <div className={styles['player']}>
      <Button
        className={styles['play']}
        onClick={() => change(playing ? { playing: false } : { shown: true, playing: true })}
      >
        {playing ? <Pause size={14} aria-hidden="true" /> : <Play size={14} aria-hidden="true" />}
        {playing ? 'Pause' : 'Play'}
      </Button>
      <Scrub />
      <Button
        look="quiet"
        className={styles['hide']}
        disabled={!shown}
        aria-label="Put the platform back"
        title="Put the platform back"
        onClick={() => change({ shown: false, playing: false, phase: 0 })}
      >
        <X size={14} aria-hidden="true" />
      </Button>
    </div>
  );
}

function Scrub() {
  const phase = usePhase();
  return (
    <input
      type="range"
      className={styles['scrub']}
      min={0}
      max={1}
      step={0.01}
      value={phase}
      aria-label="Place in the loosest motion"
      aria-valuetext={`${Math.round(phase * 100)} percent of one rock`}
      onChange={(event) => change({ shown: true, playing: false, phase: Number(event.target.value) })}
    />
  );
}
