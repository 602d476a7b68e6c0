import type { LegState } from '../../kinematics/legs.ts';
import type { Mechanism } from '../../kinematics/mechanism.ts';
import { add, scale, type Vec3 } from '../../math/vec3.ts';
import { sessionStore } from '../../state/stores.ts';
import { splitAtBarrel } from '../shape/leg-split.ts';
import { ballDiameter } from '../shape/plate-shape.ts';
import styles from './flat.module.css';
import { barPath, type FlatViewName, project } from './projection.ts';

interface FlatLegsProps {
  readonly view: FlatViewName;
  readonly mechanism: Mechanism;
  /** From the base joint to the end of the barrel [mm]. */
  readonly barrelLength: number;
  /** As drawn, and as judged: they differ while the loosest motion is shown. */
  readonly drawn: readonly LegState[];
  readonly judged: readonly LegState[];
  readonly highlightedLeg: number | null;
  /** Width of a fine line [mm on the sheet]. */
  readonly hair: number;
}

/** Six legs with their numbers, the farther ones first. */
export function FlatLegs({ view, mechanism, barrelLength, drawn, judged, highlightedLeg, hair }: FlatLegsProps) {
  const order = [...drawn].sort((a, b) => depth(view, a) - depth(view, b));
  return (
    <>
      {order.map((leg) => (
        <FlatLeg
          key={leg.leg}
          view={view}
          mechanism={mechanism}
          barrelLength={barrelLength}
          leg={leg}
          broken={judged[leg.leg - 1].violations.length > 0}
          highlighted={highlightedLeg === leg.leg}
          hair={hair}
        />
      ))}
      {drawn.map((leg) => (
        <LegNumber key={leg.leg} view={view} leg={leg} broken={judged[leg.leg - 1].violations.length > 0} hair={hair} />
      ))}
    </>
  );
}

/** Nearness of a leg's middle to whoever looks. */
const depth = (view: FlatViewName, { baseJoint_B: a, platformJoint_B: b }: LegState): number =>
  view === 'plan' ? a[2] + b[2] : -(a[1] + b[1]);

interface FlatLegProps extends Pick<FlatLegsProps, 'view' | 'mechanism' | 'barrelLength' | 'hair'> {
  readonly leg: LegState;
  readonly broken: boolean;
  readonly highlighted: boolean;
}

function FlatLeg({ view, mechanism, barrelLength, leg, broken, highlighted, hair }: FlatLegProps) {
  const { legs } = mechanism;
  const { barrelEnd, rodStart } = splitAtBarrel(legs, barrelLength, leg.length);
  const along = (distance: number): Vec3 => add(leg.baseJoint_B, scale(leg.u_B, distance));
  const ball = ballDiameter(legs) / 2;
  return (
    <g
      className={styles['leg']}
      data-broken={broken || undefined}
      data-highlighted={highlighted || undefined}
      onPointerEnter={() => sessionStore.setState({ highlightedLeg: leg.leg })}
      onPointerLeave={() => sessionStore.setState({ highlightedLeg: null })}
    >
      <Bar
        view={view}
        from={along(Math.min(rodStart, leg.length))}
        to={leg.platformJoint_B}
        width={legs.rodDiameter}
        hair={hair}
      />
      <Bar view={view} from={leg.baseJoint_B} to={along(barrelEnd)} width={legs.barrelDiameter} hair={hair} />
      {[leg.baseJoint_B, leg.platformJoint_B].map((joint, end) => {
        const [x, y] = project(view, joint);
        return (
          <circle
            key={end === 0 ? 'base' : 'platform'}
            className={styles['ball']}
            cx={x}
            cy={y}
            r={ball}
            strokeWidth={hair}
          />
        );
      })}
    </g>
  );
}

interface BarProps {
  readonly view: FlatViewName;
  readonly from: Vec3;
  readonly to: Vec3;
  readonly width: number;
  readonly hair: number;
}

/** A bar of a true width between two places. */
function Bar({ view, from, to, width, hair }: BarProps) {
  return (
    <path className={styles['body']} d={barPath(project(view, from), project(view, to), width)} strokeWidth={hair} />
  );
}

interface LegNumberProps {
  readonly view: FlatViewName;
  readonly leg: LegState;
  readonly broken: boolean;
  readonly hair: number;
}

function LegNumber({ view, leg, broken, hair }: LegNumberProps) {
  // away from the middle of the leg: seen from above, the legs of a pair come close there
  const [x, y] = project(view, add(leg.baseJoint_B, scale(leg.u_B, 0.4 * leg.length)));
  return (
    <g className={styles['number']} data-broken={broken || undefined} transform={`translate(${x} ${y}) scale(${hair})`}>
      <circle r="9" />
      <text>{leg.leg}</text>
    </g>
  );
}
