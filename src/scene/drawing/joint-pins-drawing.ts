import type { DesignParts } from '../../document/design-parts.ts';
import { LEG_COUNT } from '../../kinematics/layout.ts';
import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { type Pose, platformOrigin } from '../../kinematics/pose.ts';
import { rotate, rotateBack } from '../../math/rotation.ts';
import { add, at, scale, type Vec3 } from '../../math/vec3.ts';
import { jointPins } from '../shape/joint-pins.ts';
import { ballDiameter } from '../shape/plate-shape.ts';
import { unitCylinder } from '../shape/unit-solids.ts';
import type { FrameUniforms } from './frame-uniforms.ts';
import { PENS } from './pens.ts';
import { SolidSet } from './solid-set.ts';

/** Pieces of one joint, at most. */
const MOST_PINS = 2;

/** Bolts of rod ends and crosses of universal joints, in base axes. */
export class JointPinsDrawing {
  private readonly pins: SolidSet;

  constructor(uniforms: FrameUniforms) {
    this.pins = new SolidSet(uniforms, unitCylinder(16), MOST_PINS * 2 * LEG_COUNT);
  }

  get object() {
    return this.pins.object;
  }

  update(
    mechanism: Mechanism,
    { shapes }: DesignParts,
    pose: Pose,
    drawn: readonly LegState[],
    judged: readonly LegState[],
  ): void {
    const ball = ballDiameter(mechanism.legs);
    const origin = platformOrigin(pose, mechanism.p_PoTo_P);
    const onPlatform = (point: Vec3): Vec3 => add(origin, rotate(pose.R_BP, point));
    this.pins.begin();
    drawn.forEach(({ baseJoint_B, u_B }, leg) => {
      const broken = judged[leg].violations;
      const basePen = broken.includes('baseJoint') ? PENS.jointBroken : PENS.joint;
      for (const pin of jointPins(shapes.base[leg], baseJoint_B, u_B, ball))
        this.pins.between(pin.from, pin.to, pin.diameter, basePen);
      const joint = at(mechanism.centres.platform, leg);
      const platformPen = broken.includes('platformJoint') ? PENS.jointBroken : PENS.joint;
      for (const pin of jointPins(shapes.platform[leg], joint, rotateBack(pose.R_BP, scale(u_B, -1)), ball))
        this.pins.between(onPlatform(pin.from), onPlatform(pin.to), pin.diameter, platformPen);
    });
    this.pins.end();
  }

  dispose(): void {
    this.pins.dispose();
  }
}
