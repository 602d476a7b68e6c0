import { DESIGN_FORMAT, DESIGN_VERSION, type DesignDocument } from './design.ts';

/** A plain layout to start from: rings of 100 and 70 mm without holes, pairs 20 deg wide, legs near the middle of their stroke. */
export const emptyDesign = (): DesignDocument => ({
  format: DESIGN_FORMAT,
  version: DESIGN_VERSION,
  name: 'Untitled',
  note: '',
  base: { ring: { radius_mm: 100, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0 } },
  platform: { ring: { radius_mm: 70, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0 } },
  legs: { min_mm: 120, max_mm: 200, barrelDiameter_mm: 22, rodDiameter_mm: 10 },
  joints: {
    base: { kind: 'ball', tilt_deg: 25, mount: 'aimed' },
    platform: { kind: 'ball', tilt_deg: 25, mount: 'aimed' },
  },
  tool: { point_mm: [0, 0, 0] },
  home: { position_mm: [0, 0, 150], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 },
});
