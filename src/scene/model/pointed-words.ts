import type { PointedState } from '../../state/session/pointed-store.ts';
import { degrees } from '../../terms/units.ts';

/** Says what the ghost of a pose pointed at and a drawn box are; null while there is neither. */
export function pointedWords({ pose, box }: PointedState): string | null {
  const lines: string[] = [];
  if (pose) {
    const [x, y, z] = pose.position.map((value) => fixed(value));
    const [roll, pitch, yaw] = [pose.roll, pose.pitch, pose.yaw].map((value) => fixed(degrees(value)));
    lines.push(`Dashed: the pose pointed at, x ${x}, y ${y}, z ${z} mm, roll ${roll}, pitch ${pitch}, yaw ${yaw} deg`);
  }
  if (box) lines.push('Dashed box: positions of the tool point in the box to prove');
  return lines.length > 0 ? lines.join('\n') : null;
}

/** One digit behind the point, and never a minus before nothing but zeros. */
const fixed = (value: number): string => (Number(value.toFixed(1)) + 0).toFixed(1).replace('-', '−');
