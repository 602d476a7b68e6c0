import type { PlateName } from '../../kinematics/layout.ts';
import type { Vec3 } from '../../math/vec3.ts';
import type { SceneView } from '../model/scene-view.ts';
import { convexHull } from '../shape/convex-hull.ts';
import { solidPoints } from '../shape/solid-shape.ts';
import styles from './flat.module.css';
import { placePlate } from './flat-shapes.ts';
import { type FlatViewName, pathThrough, project } from './projection.ts';

interface FlatBodiesProps {
  readonly scene: SceneView;
  readonly view: FlatViewName;
  readonly hair: number;
}

interface FlatBody {
  readonly name: string;
  readonly fixedTo: PlateName;
  readonly points: readonly Vec3[];
}

function bodiesOf({ parts: { clearance } }: SceneView): readonly FlatBody[] {
  const payload: readonly FlatBody[] = clearance.payload
    ? [{ name: 'payload', fixedTo: 'platform', points: solidPoints(clearance.payload) }]
    : [];
  return [
    ...payload,
    ...clearance.keepOuts.map(({ fixedTo, solid }, index) => ({
      name: `K${index + 1}`,
      fixedTo,
      points: solidPoints(solid),
    })),
  ];
}

/** Payload and keep-outs as their shadows, keep-outs in dashed lines; and the line between the two nearest bodies. */
export function FlatBodies({ scene, view, hair }: FlatBodiesProps) {
  const { mechanism, drawnPose, nearest } = scene;
  return (
    <>
      {bodiesOf(scene).map(({ name, fixedTo, points }) => {
        const placed = placePlate(mechanism, fixedTo, drawnPose);
        const outline = convexHull(points.map((point) => project(view, placed(point))));
        const [x, y] = outline.reduce((top, corner) => (corner[1] < top[1] ? corner : top));
        return (
          <g key={name} className={styles['solid']} data-keep-out={name !== 'payload' || undefined}>
            <path
              d={pathThrough(outline)}
              strokeWidth={1.1 * hair}
              strokeDasharray={name === 'payload' ? undefined : `${5 * hair} ${3 * hair}`}
            />
            <text transform={`translate(${x} ${y}) scale(${hair})`} y="-4">
              {name}
            </text>
          </g>
        );
      })}
      {nearest && nearest.state !== 'meet' ? (
        <path
          className={styles['nearest']}
          data-state={nearest.state}
          d={pathThrough([project(view, nearest.from), project(view, nearest.to)], false)}
          strokeWidth={1.8 * hair}
        />
      ) : null}
    </>
  );
}
