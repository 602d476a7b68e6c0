import type { LegErrors } from '../../kinematics/error-sources.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import type { Mat3 } from '../../math/rotation.ts';

/** Numbers per leg: what does not depend on the leg's direction, then hole and seat of the base, hole and seat of the platform. */
const OWN = 5;

/**
 * How far each leg's effective length can be off, all sources together, for many positions at one orientation. The same sums
 * as `legErrorBounds`, which holds the reasons, without allocation.
 */
export class ToolErrorBounds {
  private readonly own = new Float64Array(OWN * LEG_COUNT);
  private readonly bounds = new Float64Array(LEG_COUNT);
  /** R_BP's third column: the platform's z in base axes. */
  private readonly up: Float64Array;
  private readonly flat: { readonly base: boolean; readonly platform: boolean };

  constructor({ spec }: Mechanism, R_BP: Mat3, errors: readonly LegErrors[]) {
    this.flat = { base: spec.base.kind === 'ring', platform: spec.platform.kind === 'ring' };
    this.up = Float64Array.of(R_BP[2], R_BP[5], R_BP[8]);
    errors.forEach((own, leg) => {
      const { resolution, backlash, zero, basePlay, platformPlay } = own;
      const fixed = (resolution + backlash + basePlay + platformPlay) / 2 + zero;
      this.own.set([fixed, own.baseHole, own.baseSeat, own.platformHole, own.platformSeat], OWN * leg);
    });
  }

  /** Goes on with another orientation. */
  turnTo(R_BP: Mat3): void {
    this.up[0] = R_BP[2];
    this.up[1] = R_BP[5];
    this.up[2] = R_BP[8];
  }

  /** @param J rows that start with u_i in base axes. @returns six bounds [mm], overwritten by the next call */
  at(J: Float64Array): Float64Array {
    const { own, bounds, up, flat } = this;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const x = J[6 * leg];
      const y = J[6 * leg + 1];
      const z = J[6 * leg + 2];
      const onPlatform = x * up[0] + y * up[1] + z * up[2];
      const baseFlat = flat.base ? Math.sqrt(Math.max(0, 1 - z * z)) : 1;
      const platformFlat = flat.platform ? Math.sqrt(Math.max(0, 1 - onPlatform * onPlatform)) : 1;
      const o = OWN * leg;
      bounds[leg] =
        own[o] +
        own[o + 1] * baseFlat +
        own[o + 2] * Math.abs(z) +
        own[o + 3] * platformFlat +
        own[o + 4] * Math.abs(onPlatform);
    }
    return bounds;
  }
}
