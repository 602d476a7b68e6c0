import { innerCones } from '../kinematics/inner-cones.ts';
import { LEG_COUNT } from '../kinematics/layout.ts';
import type { Mechanism } from '../kinematics/mechanism.ts';
import type { Mat3 } from '../math/rotation.ts';
import type { ColumnBatch } from './column-batch.ts';
import { LeaningCones, UprightCones } from './column-cones.ts';
import { SphereBottoms, SphereTops } from './column-limits.ts';

/** Cuts vertical columns to what some limits allow. */
export interface ColumnCutter {
  /** Longest leg [mm]. */
  readonly longest: number;
  cut(batch: ColumnBatch): void;
}

/**
 * Vertical columns through the reach of a standing platform: tool points at given orientations where every platform joint is
 * above its base joint, every leg is between its shortest and longest length and every joint within its cone.
 *
 * With the orientation fixed each limit is a sphere or a cone whose apex is c_i = A_i - R b_i. Above the apex each of them
 * cuts a column in one piece, so the allowed part of a column is [highest bottom, lowest top]: one comparison a limit.
 * Legs of several orientations may be loaded together; the column is then what all of them allow. Rod ends and universal joints
 * count as the widest cones within their limits, so that their reach is at least what is found.
 */
export class StandingColumns implements ColumnCutter {
  /** Longest leg [mm]. */
  longest = 0;

  private readonly tops: SphereTops;
  private readonly bottoms: SphereBottoms;
  private readonly baseCones: UprightCones;
  private readonly platformCones: UprightCones;
  private readonly leaning: LeaningCones;

  /** @param orientations how many may be loaded at once */
  constructor(orientations: number) {
    const legs = orientations * LEG_COUNT;
    this.tops = new SphereTops(legs);
    this.bottoms = new SphereBottoms(legs);
    this.baseCones = new UprightCones(legs);
    this.platformCones = new UprightCones(legs);
    this.leaning = new LeaningCones(2 * legs);
  }

  /** Centre of the apexes in plan [mm], by axis. */
  middle(axis: 0 | 1): number {
    return this.tops.middle(axis);
  }

  /** Whether (x, y) lies within every outer sphere's shadow; outside of one no leg reaches. */
  withinShadow(x: number, y: number): boolean {
    return this.tops.covers(x, y);
  }

  /** The stretch of a ray (unit direction) within every outer sphere's shadow, written to `span` as from, to [mm]; false when there is none. */
  shadowAlong(x: number, y: number, ex: number, ey: number, span: Float64Array): boolean {
    return this.tops.shadowAlong(x, y, ex, ey, span);
  }

  /** Forgets all orientations and takes the leg lengths of a design. */
  start({ legs }: Mechanism): void {
    this.tops.clear();
    this.bottoms.clear();
    this.baseCones.clear();
    this.platformCones.clear();
    this.leaning.clear();
    this.longest = legs.max;
    this.tops.radius2 = legs.max ** 2;
    this.bottoms.radius2 = legs.min ** 2;
  }

  /** Adds the six legs of a design at an orientation. */
  add(mechanism: Mechanism, R: Mat3): void {
    const { p_ToBi_P: b, centres, baseAxes_B: up, platformAxes_P: down } = mechanism;
    const cones = innerCones(mechanism);
    const atBase = leastCosine(cones.base);
    const atPlatform = leastCosine(cones.platform);
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const i = 3 * leg;
      const x = centres.base[i] - (R[0] * b[i] + R[1] * b[i + 1] + R[2] * b[i + 2]);
      const y = centres.base[i + 1] - (R[3] * b[i] + R[4] * b[i + 1] + R[5] * b[i + 2]);
      const z = centres.base[i + 2] - (R[6] * b[i] + R[7] * b[i + 1] + R[8] * b[i + 2]);
      this.tops.add(x, y, z);
      this.bottoms.add(x, y, z);
      const ax = -(R[0] * down[i] + R[1] * down[i + 1] + R[2] * down[i + 2]);
      const ay = -(R[3] * down[i] + R[4] * down[i + 1] + R[5] * down[i + 2]);
      const az = -(R[6] * down[i] + R[7] * down[i + 1] + R[8] * down[i + 2]);
      // both ends of a leg often share one axis (square mounts, level platform): the tighter cone holds for both
      const shared = ax === up[i] && ay === up[i + 1];
      this.addCone(
        this.baseCones,
        x,
        y,
        z,
        up[i],
        up[i + 1],
        up[i + 2],
        shared ? Math.max(atBase, atPlatform) : atBase,
      );
      if (!shared) this.addCone(this.platformCones, x, y, z, ax, ay, az, atPlatform);
    }
  }

  private addCone(
    upright: UprightCones,
    x: number,
    y: number,
    z: number,
    ax: number,
    ay: number,
    az: number,
    k: number,
  ): void {
    if (k === ANY_COSINE) return;
    const kind = az > k ? upright : this.leaning;
    kind.add(x, y, z, ax, ay, az, k);
  }

  /**
   * Cuts every column of a batch to what is allowed. Top minus bottom is continuous in (x, y) wherever the column is within
   * every outer sphere, so that its sign changes can be found by interpolation.
   */
  cut(batch: ColumnBatch): void {
    for (let column = 0; column < batch.count; column++) {
      batch.top[column] = Number.POSITIVE_INFINITY;
      batch.bottom[column] = Number.NEGATIVE_INFINITY;
    }
    this.tops.cut(batch);
    this.bottoms.cut(batch);
    this.baseCones.cut(batch);
    this.platformCones.cut(batch);
    this.leaning.cut(batch);
  }
}

/** Stands for a joint that tilts freely. */
export const ANY_COSINE = -1;

/** Least cosine between a leg and its mount axis. */
export const leastCosine = (limit: number): number => (limit >= NO_LIMIT ? ANY_COSINE : Math.abs(Math.cos(limit)));

/** A cone this wide limits nothing that stands: half a turn. Wider than a right angle but less than this is not supported. */
export const NO_LIMIT = Math.PI;
