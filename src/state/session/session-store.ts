import { createStore } from 'zustand/vanilla';
import type { DesignDocument } from '../../document/design.ts';
import type { PoseAngles } from '../../kinematics/pose.ts';
import type { Direction } from '../../reach/columns/column-cutter.ts';
import type { SignLeg } from '../../reach/field/field-cut.ts';
import type { QuantityName } from '../../terms/quantities.ts';

/** How the reachable volume is drawn. */
export type ReachDrawing = 'cloud' | 'shell' | 'none';

/** What colours the reachable volume: how firm each point is, which limit stops it there, or a quantity of its field. */
export type ReachColouring = 'firmness' | 'limit' | QuantityName;

/** Whether a colouring is a quantity of the field. */
export const isFieldColouring = (colouring: ReachColouring): colouring is QuantityName =>
  colouring !== 'firmness' && colouring !== 'limit';

/** A plane that cuts the reach open, square to an axis of the base frame. */
export interface Cut {
  readonly shown: boolean;
  /** 0, 1, 2: square to x, y, z. */
  readonly axis: Direction;
  /** Where on that axis [mm]; null: through the tool point, which it then follows. */
  readonly at: number | null;
}

/** The surface on which the force of a leg changes sign. */
export interface SignShown {
  readonly shown: boolean;
  readonly leg: SignLeg;
}

/** The orientation at which the reach is measured: the home one, or the present one. */
export type ReachOrientation = 'home' | 'present';

export const STANDARD_VIEWS = ['isometric', 'top', 'front', 'right'] as const;
export type StandardView = (typeof STANDARD_VIEWS)[number];

/** The loosest motion on the 3D platform: `phase` runs from 0 to 1 over one rock there and back. */
export interface LooseMotionPlay {
  readonly shown: boolean;
  readonly playing: boolean;
  readonly phase: number;
}

/** What a person is looking at; none of it is part of the design, and none of it is undone. */
export interface SessionState {
  /** Pose of the tool [mm, rad]; null while the platform stands at home and follows it. */
  readonly pose: PoseAngles | null;
  readonly reachDrawing: ReachDrawing;
  readonly reachColouring: ReachColouring;
  readonly cut: Cut;
  readonly signs: SignShown;
  readonly reachOrientation: ReachOrientation;
  /** Half angle of the cone of tilts and half range of yaw for the reach at all orientations [rad]. */
  readonly tiltRange: number;
  readonly yawRange: number;
  readonly showCones: boolean;
  readonly showFrames: boolean;
  /** Whether the two bodies that come nearest are marked even while they stay apart. */
  readonly clearanceShown: boolean;
  /** The handle on the platform: off, moving or turning. */
  readonly handle: 'off' | 'move' | 'turn';
  readonly projection: 'perspective' | 'orthographic';
  /** A wish for the camera; `count` rises with every wish so that the same one can be made twice. */
  readonly cameraWish: {
    readonly view: StandardView | 'fit';
    readonly count: number;
  };
  readonly looseMotion: LooseMotionPlay;
  /** A design kept as a ghost beside the live one. */
  readonly pinned: DesignDocument | null;
  /** A layout that is pointed at in a picture or list of many; drawn as a ghost in place of the pinned one. */
  readonly hovered: DesignDocument | null;
  /** Leg 1 to 6 whose row or line is pointed at. */
  readonly highlightedLeg: number | null;
  /** The drawing context was lost and is being rebuilt, or there is none at all. */
  readonly drawing: 'ready' | 'lost' | 'unavailable';
}

/** Half angle of tilt for which the reach is stated beside the level one: a gentle sea [rad]. */
const DEFAULT_TILT_RANGE = (10 * Math.PI) / 180;

/** The platform back at home; a paused loosest motion no longer holds it away from there. */
export const stoodHome = ({ looseMotion }: SessionState): Pick<SessionState, 'pose' | 'looseMotion'> => ({
  pose: null,
  looseMotion: looseMotion.playing ? looseMotion : { shown: false, playing: false, phase: 0 },
});

export const createSessionStore = () =>
  createStore<SessionState>()(() => ({
    pose: null,
    reachDrawing: 'shell',
    reachColouring: 'firmness',
    cut: { shown: false, axis: 1, at: null },
    signs: { shown: false, leg: 'any' },
    reachOrientation: 'home',
    tiltRange: DEFAULT_TILT_RANGE,
    yawRange: 0,
    showCones: true,
    showFrames: true,
    clearanceShown: false,
    handle: 'move',
    projection: 'perspective',
    cameraWish: { view: 'isometric', count: 0 },
    looseMotion: { shown: false, playing: false, phase: 0 },
    pinned: null,
    hovered: null,
    highlightedLeg: null,
    drawing: 'ready',
  }));

export type SessionStore = ReturnType<typeof createSessionStore>;

/** Asks the camera to take a standard view or to fit everything. */
export const wishView = (store: SessionStore, view: StandardView | 'fit'): void =>
  store.setState((state) => ({
    cameraWish: { view, count: state.cameraWish.count + 1 },
  }));

/** The pose whose orientation the reach is measured at; null for home. */
export const reachPose = ({ reachOrientation, pose }: SessionState): PoseAngles | null =>
  reachOrientation === 'present' ? pose : null;
