import { memo, type ReactNode } from 'react';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { degrees } from '../../terms/units.ts';
import { How } from '../../ui/How.tsx';
import { fixedText } from '../../words/numbers.ts';
import type { LegJoints } from './leg-rows.ts';

interface LegsHowProps {
  /** The leg whose numbers are filled in. */
  readonly leg: LegState;
  readonly mechanism: Mechanism;
  readonly joints: LegJoints;
}

const vector = (v: readonly number[], digits: number): string =>
  `(${v.map((component) => fixedText(component, digits)).join(', ')})`;

/** Opens how the numbers of the table come about. */
export const LegsHow = memo(function LegsHow({ children }: { readonly children: ReactNode }) {
  return <How name="How the legs are computed">{children}</How>;
});

/** How the numbers of the table come about, with those of one leg filled in. */
export function LegsHowText({ leg, mechanism, joints }: LegsHowProps) {
  const { baseJoint_B: a, platformJoint_B: b, u_B: u } = leg;
  const { min, max } = mechanism.legs;
  const kinds = [joints.shapes.base[leg.leg - 1].kind, joints.shapes.platform[leg.leg - 1].kind];
  const tilts = [
    { plate: 'base', kind: kinds[0], tilt: leg.baseTilt },
    { plate: 'platform', kind: kinds[1], tilt: leg.platformTilt },
  ]
    .filter(({ kind }) => kind === 'ball')
    .map(({ plate, tilt }) => `${fixedText(degrees(tilt), 2)} deg at the ${plate}`);
  return (
    <>
      <p>
        Length, pin to pin, for leg {leg.leg} at this pose: |b − a| with the joint centres a = {vector(a, 1)} mm on the
        base and b = t + R p = {vector(b, 1)} mm on the platform, in base axes: {fixedText(leg.length, 2)} mm.
      </p>
      <p>
        Stroke used: (length − shortest) / (longest − shortest) = ({fixedText(leg.length, 1)} − {fixedText(min, 1)}) / (
        {fixedText(max, 1)} − {fixedText(min, 1)}) = {fixedText(((leg.length - min) / (max - min)) * 100, 0)} %.
      </p>
      <p>
        Joint angles: the leg points along u = (b − a) / length = {vector(u, 3)}; at the platform −u, in platform axes,
        counts. Per cent is the share of the limit that is used.
      </p>
      {tilts.length > 0 ? (
        <p>A ball joint’s tilt is the angle between u and the mount axis m, arccos(u · m): {tilts.join(' and ')}.</p>
      ) : null}
      {kinds.includes('rodEnd') ? (
        <p>A rod end turns freely about its bolt e; its tilt is arcsin |u · e|, out of the plane square to the bolt.</p>
      ) : null}
      {kinds.includes('universal') ? (
        <p>
          A universal joint turns about its first axis e, fixed to the plate, then about a second one square to it:
          second = arcsin(u · e), first = the angle from the mount axis to what is left of u square to e.
        </p>
      ) : null}
      <p>
        Exact for this pose; a leg breaks a limit when it is past it by more than rounding. Geometry of joint centres,
        no deflection and no play. Source: the inverse kinematics of a six-legged platform, in closed form.
      </p>
    </>
  );
}
