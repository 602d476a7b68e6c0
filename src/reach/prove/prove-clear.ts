import { poseBodies } from '../../kinematics/clearance.ts';
import type { ClearanceModel, ClearancePair, LegBody, SolidBody } from '../../kinematics/clearance-pairs.ts';
import { type LegPoint, partEnds } from '../../kinematics/leg-bodies.ts';
import { segmentDistance } from '../../math/capsule.ts';
import { ConvexDistance } from '../../math/convex-distance.ts';
import { rotateBack } from '../../math/rotation.ts';
import type { Vec3 } from '../../math/vec3.ts';
import { POSE_NUMBERS } from '../pose-box.ts';
import { CENTRE_ROUNDING, type Claim, type EnclosedBox } from './prove-claims.ts';

/** Bodies of a design, posed once per box for all pair claims. */
export class PosedModel {
  readonly model: ClearanceModel;
  readonly walker = new ConvexDistance();
  private posedFor: EnclosedBox['pose'] | null = null;

  constructor(model: ClearanceModel) {
    this.model = model;
  }

  poseFor(box: EnclosedBox): void {
    if (this.posedFor === box.pose) return;
    poseBodies(this.model, box.pose);
    this.posedFor = box.pose;
  }
}

/**
 * Two bodies keep at least `floor` apart at every pose of a box.
 *
 * A direction n that separates them at the centre separates them by at least `min n . (p - q)` over their points p and q; for
 * segments and fixed solids that is a minimum over few points, each enclosed by the mean value theorem. n stays fixed in the
 * base, or in the platform when one of the bodies is fixed to it, so a shared motion cancels.
 */
export class PairClaim implements Claim {
  readonly question = 'clear';
  readonly pair: ClearancePair;
  private readonly posed: PosedModel;
  private readonly floor: number;
  private readonly trial = new Float64Array(POSE_NUMBERS);
  private readonly closest = new Float64Array(6);
  private readonly tip = new Float64Array(3);

  constructor(posed: PosedModel, pair: ClearancePair, floor: number) {
    this.posed = posed;
    this.pair = pair;
    this.floor = floor;
  }

  lowest(box: EnclosedBox, spread: Float64Array): number {
    this.posed.poseFor(box);
    const { a, b } = this.pair;
    const normal = this.separation(box);
    if (!normal) {
      spread.set(box.half);
      return Number.NEGATIVE_INFINITY;
    }
    const needed = this.floor + a.radius + b.radius + CENTRE_ROUNDING * box.scale;
    if (a.kind === 'leg' && b.kind === 'leg') return this.legToLeg(box, a, b, normal, spread) - needed;
    if (a.kind === 'leg' && b.kind === 'solid')
      return (
        (b.fixedTo === 'base'
          ? this.legToBaseSolid(box, a, b, normal, spread)
          : this.legToPlatformSolid(box, a, b, normal, spread)) - needed
      );
    return a.kind === 'solid' && b.kind === 'solid' ? this.solidToSolid(box, a, b, normal, spread) - needed : 0;
  }

  /** Unit direction from b to a at the centre; null when they meet. */
  private separation(box: EnclosedBox): Vec3 | null {
    const { a, b } = this.pair;
    const { closest, posed } = this;
    if (a.kind === 'leg' && b.kind === 'leg') {
      const { segments } = posed.model;
      segmentDistance(segments, a.segment, segments, b.segment, closest);
    } else {
      posed.walker.between(a.core, b.core);
      closest.set(posed.walker.onA, 0);
      closest.set(posed.walker.onB, 3);
    }
    const n: Vec3 = [closest[0] - closest[3], closest[1] - closest[4], closest[2] - closest[5]];
    const size = Math.hypot(...n);
    return size > CENTRE_ROUNDING * box.scale ? [n[0] / size, n[1] / size, n[2] / size] : null;
  }

  private ends(body: LegBody): readonly [LegPoint, LegPoint] {
    return partEnds(body.part, this.posed.model.spec);
  }

  /** n . (A + s u) or n . (B + s u) of a leg at the centre. */
  private valueAt({ vectors, mechanism, J }: EnclosedBox, leg: number, { from, along }: LegPoint, n: Vec3): number {
    const i = 3 * leg;
    let value = 0;
    for (let axis = 0; axis < 3; axis++) {
      const start = mechanism.centres.base[i + axis] + (from === 'platform' ? vectors[i + axis] : 0);
      value += n[axis] * (start + along * J[6 * leg + axis]);
    }
    return value;
  }

  /** Adds sign times the change of a leg's point with a pose number to three scratch registers. */
  private addChange(box: EnclosedBox, leg: number, { from, along }: LegPoint, number: number, sign: number): void {
    const { enclosure } = box;
    const I = enclosure.registers;
    const at = enclosure.scratch;
    const unitBy = enclosure.unitBy(leg, number);
    for (let axis = 0; axis < 3; axis++) {
      if (along !== 0) I.addScaled(at + axis, unitBy + axis, sign * along);
      if (from !== 'platform') continue;
      if (number >= 3) I.addScaled(at + axis, enclosure.armBy(leg, number) + axis, sign);
      else if (axis === number) I.mid[at + axis] += sign;
    }
  }

  private clearScratch({ enclosure }: EnclosedBox): void {
    for (let axis = 0; axis < 3; axis++) enclosure.registers.set(enclosure.scratch + axis, 0);
  }

  private legToLeg(box: EnclosedBox, a: LegBody, b: LegBody, n: Vec3, spread: Float64Array): number {
    let least = Number.POSITIVE_INFINITY;
    for (const p of this.ends(a)) {
      for (const q of this.ends(b)) {
        const value = this.valueAt(box, a.leg, p, n) - this.valueAt(box, b.leg, q, n);
        least = this.lesser(least, value, spread, (number) => {
          // the rod ends of two legs move with one body: their translation cancels
          this.clearScratch(box);
          this.addChange(box, a.leg, p, number, 1);
          this.addChange(box, b.leg, q, number, -1);
          return box.half[number] * box.enclosure.registers.magnitudeAlong(box.enclosure.scratch, ...n);
        });
      }
    }
    return least;
  }

  private legToBaseSolid(box: EnclosedBox, a: LegBody, b: SolidBody, n: Vec3, spread: Float64Array): number {
    const { tip } = this;
    b.core.support(n[0], n[1], n[2], tip, 0);
    const face = n[0] * tip[0] + n[1] * tip[1] + n[2] * tip[2];
    let least = Number.POSITIVE_INFINITY;
    for (const p of this.ends(a)) {
      least = this.lesser(least, this.valueAt(box, a.leg, p, n) - face, spread, (number) => {
        this.clearScratch(box);
        this.addChange(box, a.leg, p, number, 1);
        return box.half[number] * box.enclosure.registers.magnitudeAlong(box.enclosure.scratch, ...n);
      });
    }
    return least;
  }

  /**
   * With m = R^T n fixed in the platform and P = B + s u or A + s u = B - q + s u, the height over the platform's tool point is
   * `m . b + (R m) . v`, v = s u - (0 or q): it changes by `(w x R m) . v + (R m) . v'`.
   */
  private legToPlatformSolid(box: EnclosedBox, a: LegBody, b: SolidBody, n: Vec3, spread: Float64Array): number {
    const { enclosure, pose, mechanism } = box;
    const I = enclosure.registers;
    const m = rotateBack(pose.R_BP, n);
    const face = this.platformFace(box, b, n);
    const Rm = enclosure.scratch;
    const v = Rm + 3;
    const change = Rm + 6;
    enclosure.rotateInto(Rm, m, 0);
    const joint = 3 * a.leg;
    const arm =
      m[0] * mechanism.p_ToBi_P[joint] + m[1] * mechanism.p_ToBi_P[joint + 1] + m[2] * mechanism.p_ToBi_P[joint + 2];
    let least = Number.POSITIVE_INFINITY;
    for (const { from, along } of this.ends(a)) {
      const whole = from === 'base' ? 1 : 0;
      let value = arm;
      for (let axis = 0; axis < 3; axis++) {
        value += n[axis] * (along * box.J[6 * a.leg + axis] - whole * box.vectors[joint + axis]);
        I.scale(v + axis, enclosure.unit(a.leg) + axis, along);
        I.addScaled(v + axis, enclosure.vector(a.leg) + axis, -whole);
      }
      least = this.lesser(least, value - face, spread, (number) => {
        for (let axis = 0; axis < 3; axis++) {
          I.scale(change + axis, enclosure.unitBy(a.leg, number) + axis, along);
          if (number >= 3) I.addScaled(change + axis, enclosure.armBy(a.leg, number) + axis, -whole);
          else if (axis === number) I.mid[change + axis] -= whole;
        }
        I.dot(Rm + 9, Rm, change);
        if (number >= 3) {
          I.cross(change, enclosure.axis(number), Rm);
          I.dot(Rm + 10, change, v);
          I.add(Rm + 9, Rm + 9, Rm + 10);
        }
        return box.half[number] * I.magnitude(Rm + 9);
      });
    }
    return least;
  }

  /** Farthest height of a platform solid along n, from the tool point, at the centre. */
  private platformFace(box: EnclosedBox, b: SolidBody, n: Vec3): number {
    const { tip } = this;
    b.core.support(n[0], n[1], n[2], tip, 0);
    const t = box.pose.p_BoTo_B;
    return n[0] * (tip[0] - t[0]) + n[1] * (tip[1] - t[1]) + n[2] * (tip[2] - t[2]);
  }

  /** a fixed to the base, b to the platform: no point of b turns farther than its distance from the tool point times the angle. */
  private solidToSolid(box: EnclosedBox, a: SolidBody, b: SolidBody, n: Vec3, spread: Float64Array): number {
    const { tip } = this;
    a.core.support(-n[0], -n[1], -n[2], tip, 0);
    const near = n[0] * tip[0] + n[1] * tip[1] + n[2] * tip[2];
    b.core.support(n[0], n[1], n[2], tip, 0);
    const far = n[0] * tip[0] + n[1] * tip[1] + n[2] * tip[2];
    const [x, y, z] = b.ball.centre;
    const tool = box.mechanism.p_PoTo_P;
    const reach = Math.hypot(x - tool[0], y - tool[1], z - tool[2]) + b.ball.radius;
    for (let number = 0; number < POSE_NUMBERS; number++)
      spread[number] = box.half[number] * (number < 3 ? Math.abs(n[number]) : reach);
    return near - far - sum(spread);
  }

  /** Keeps the smaller of two lower bounds together with its spread. */
  private lesser(least: number, value: number, spread: Float64Array, contribution: (number: number) => number): number {
    const { trial } = this;
    for (let number = 0; number < POSE_NUMBERS; number++) trial[number] = contribution(number);
    const bound = value - sum(trial);
    if (bound >= least) return least;
    spread.set(trial);
    return bound;
  }
}

function sum(entries: Float64Array): number {
  let total = 0;
  for (const entry of entries) total += entry;
  return total;
}
