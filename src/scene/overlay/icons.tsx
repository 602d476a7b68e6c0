import type { ReactNode } from 'react';

/** A 20 by 20 line drawing. */
const icon = (content: ReactNode): ReactNode => (
  <svg
    viewBox="0 0 20 20"
    aria-hidden="true"
    fill="none"
    stroke="currentColor"
    strokeLinejoin="round"
    strokeLinecap="round"
  >
    {content}
  </svg>
);

const CUBE = 'M10 2.5 L16.5 6.2 V13.8 L10 17.5 L3.5 13.8 V6.2 Z M3.5 6.2 L10 10 L16.5 6.2 M10 10 V17.5';

/** The cube of a standard view, the face that it looks at filled. */
const cube = (face: string) =>
  icon(
    <>
      {face !== '' && <path d={face} fill="currentColor" stroke="none" />}
      <path d={CUBE} />
    </>,
  );

export const ISOMETRIC_ICON = cube('');
export const TOP_ICON = cube('M10 2.5 L16.5 6.2 L10 10 L3.5 6.2 Z');
export const FRONT_ICON = cube('M3.5 6.2 L10 10 V17.5 L3.5 13.8 Z');
export const RIGHT_ICON = cube('M16.5 6.2 L10 10 V17.5 L16.5 13.8 Z');
export const FIT_ICON = icon(
  <>
    <path d="M3 7 V3 H7 M13 3 H17 V7 M17 13 V17 H13 M7 17 H3 V13" />
    <circle cx="10" cy="10" r="3" />
  </>,
);
export const PERSPECTIVE_ICON = icon(
  <path d="M2.5 16 L7 5 H13 L17.5 16 Z M4.6 11 H15.4 M8.2 16 L9.2 5 M11.8 16 L10.8 5" />,
);
export const PARALLEL_ICON = icon(<path d="M3 4.5 H17 V16 H3 Z M3 10.2 H17 M7.7 4.5 V16 M12.3 4.5 V16" />);
export const SHELL_ICON = icon(
  <path d="M10 3 C14.5 3 17 7 16.4 11 C15.8 15 13 17 10 17 C7 17 4.2 15 3.6 11 C3 7 5.5 3 10 3 Z M3.7 8 C7 10 13 10 16.3 8 M4.3 12.6 C8 14.4 12 14.4 15.7 12.6" />,
);
export const CUT_ICON = icon(
  <>
    <path d="M4 6.5 L13 3 V13.5 L4 17 Z" fill="currentColor" fillOpacity="0.25" />
    <path d="M13 5.5 C16 6.2 17.6 8 17 10.6 C16.5 12.8 14.8 13.8 13 14" />
  </>,
);
export const SIGNS_ICON = icon(
  <path d="M2.5 13 C6 4.5 8 4.5 10 10 S14 15.5 17.5 7 M3.5 5.5 H7.5 M5.5 3.5 V7.5 M12.5 16.5 H16.5" />,
);
export const CLOUD_ICON = icon(
  <g fill="currentColor" stroke="none">
    {[
      [10, 4],
      [6, 6.5],
      [14, 6.5],
      [10, 8.5],
      [4.5, 10.5],
      [8, 12],
      [12.5, 11.5],
      [15.8, 10.5],
      [6.5, 15.2],
      [10.5, 16],
      [14, 14.6],
    ].map(([x, y]) => (
      <circle key={`${x} ${y}`} cx={x} cy={y} r="1.25" />
    ))}
  </g>,
);
export const FIRMNESS_ICON = icon(
  <>
    <rect x="2.5" y="6.5" width="15" height="7" />
    <path d="M6 6.5 V13.5 M9 6.5 V13.5 M11.5 6.5 V13.5 M13.5 6.5 V13.5 M15 6.5 V13.5 M16.2 6.5 V13.5" />
  </>,
);
export const LIMIT_ICON = icon(
  <>
    <rect x="3" y="3" width="14" height="14" />
    <path d="M3 10 L10 3 M3 16 L10 9 M10 12 H17 M10 15 H17 M10 3 V17" />
  </>,
);
export const CONES_ICON = icon(
  <>
    <path d="M4.2 5.5 L10 17 L15.8 5.5" />
    <ellipse cx="10" cy="5.5" rx="5.8" ry="2.2" />
  </>,
);
export const FRAMES_ICON = icon(
  <path d="M7 13 V3 M5.2 5.2 L7 3 L8.8 5.2 M7 13 H17 M14.8 11.2 L17 13 L14.8 14.8 M7 13 L2.8 17.2" />,
);
export const MOVE_ICON = icon(
  <path d="M10 2.5 V17.5 M2.5 10 H17.5 M8 4.5 L10 2.5 L12 4.5 M8 15.5 L10 17.5 L12 15.5 M4.5 8 L2.5 10 L4.5 12 M15.5 8 L17.5 10 L15.5 12" />,
);
export const TURN_ICON = icon(
  <>
    <path d="M16 7 A6.8 6.8 0 1 0 16.8 10.6" />
    <path d="M16.6 3.4 L16.2 7.2 L12.6 6.4" />
  </>,
);
