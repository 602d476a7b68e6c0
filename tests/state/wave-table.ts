import type { DesignDocument } from '../../src/document/design.ts';

/** The design of the file format's own example, both plates on indexed rings. */
export const waveTable: DesignDocument = {
  format: 'legroom-design',
  version: 1,
  name: 'Wave table',
  note: '',
  base: { ring: { radius_mm: 100, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0, holes: { count: 72, start_deg: 0 } } },
  platform: {
    ring: { radius_mm: 70, gap_deg: 20, turn_deg: 0, jointHeight_mm: 0, holes: { count: 72, start_deg: 0 } },
  },
  legs: { min_mm: 120, max_mm: 200, barrelDiameter_mm: 22, rodDiameter_mm: 10 },
  joints: {
    base: { kind: 'ball', tilt_deg: 25, mount: 'square' },
    platform: { kind: 'ball', tilt_deg: 25, mount: 'aimed' },
  },
  tool: { point_mm: [0, 0, 0] },
  home: { position_mm: [0, 0, 150], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 },
};
