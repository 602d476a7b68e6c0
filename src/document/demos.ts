import even from '../../public/demos/even.json';
import roomy from '../../public/demos/roomy.json';
import steady from '../../public/demos/steady.json';
import type { DesignDocument } from './design.ts';
import { validateDesign } from './read-design.ts';

/** The designs that come with the program; all invented. */
export const DEMO_NAMES = ['steady', 'roomy', 'even'] as const;

export type DemoName = (typeof DEMO_NAMES)[number];

/** What a menu calls each of them. */
export const DEMO_TITLES: Readonly<Record<DemoName, string>> = {
  steady: 'Steady wave table',
  roomy: 'Roomy, nearly singular',
  even: 'Evenly spaced, singular everywhere',
};

/** The demo designs; the steady one is what the program opens with first. */
export const DEMOS: Readonly<Record<DemoName, DesignDocument>> = {
  steady: demo(steady),
  roomy: demo(roomy),
  even: demo(even),
};

function demo(file: unknown): DesignDocument {
  const design = validateDesign(file);
  if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join(' '));
  return design.value;
}
