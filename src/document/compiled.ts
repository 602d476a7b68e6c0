import { type Architecture, assessArchitecture } from '../kinematics/architecture.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { PoseAngles } from '../kinematics/pose.ts';
import type { DesignDocument } from './design.ts';
import { type JudgementInputs, judgementInputs } from './judgement-inputs.ts';
import { mechanismFromDocument, poseAnglesFromDocument } from './units.ts';

/** A design compiled, with what holds at every pose. */
export interface CompiledDesign {
  readonly mechanism: Mechanism;
  readonly architecture: Architecture;
}

const compiled = new WeakMap<DesignDocument, CompiledDesign>();

/** Compiles a document once; the same document object always gives the same compiled object. */
export function compiledDesign(document: DesignDocument): CompiledDesign {
  let known = compiled.get(document);
  if (!known) {
    const mechanism = mechanismFromDocument(document);
    known = { mechanism, architecture: assessArchitecture(mechanism) };
    compiled.set(document, known);
  }
  return known;
}

const homes = new WeakMap<DesignDocument['home'], PoseAngles>();

/** The home pose as the document writes it; the same object until the home pose changes. */
export function homePose(document: DesignDocument): PoseAngles {
  let known = homes.get(document.home);
  if (!known) {
    known = poseAnglesFromDocument(document.home);
    homes.set(document.home, known);
  }
  return known;
}

/** The pose of the platform: the jogged one, or home. */
export const presentPose = (document: DesignDocument, pose: PoseAngles | null): PoseAngles =>
  pose ?? homePose(document);

const inputs = new WeakMap<DesignDocument, JudgementInputs>();

/** What a design's judgements are computed from; the same document object always gives the same object. */
export function inputsOf(document: DesignDocument): JudgementInputs {
  let known = inputs.get(document);
  if (!known) {
    known = judgementInputs(document, compiledDesign(document).mechanism);
    inputs.set(document, known);
  }
  return known;
}
