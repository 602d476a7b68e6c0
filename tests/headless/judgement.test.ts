import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { command, VALID } from './command.ts';

const vector = z.tuple([z.number(), z.number(), z.number()]);
const shift = z.object({ translation_mm: vector, rotation_deg: vector });
const size = shift.extend({ length_mm: z.number(), turn_deg: z.number() });
const extreme = z.object({ leg: z.number(), force_N: z.number() }).nullable();

/** What `pose` promises of the judgements, and its types. */
const judged = z.object({
  legs: z.array(
    z.object({
      length_mm: z.number(),
      baseTilt_deg: z.number(),
      platformTilt_deg: z.number(),
      baseMargin_deg: z.number(),
      baseAngles_deg: z.array(z.number()).length(2).optional(),
      twist_deg: z.number().optional(),
      twistLength_mm: z.number().optional(),
      violations: z.array(z.string()),
    }),
  ),
  accuracy: z
    .object({
      assumed: z.boolean(),
      worst: size,
      rss: size,
      contributors: z.array(z.object({ source: z.string(), worst_mm: z.number(), share: z.number() })),
      firstOrderHolds: z.boolean(),
      note: z.string().optional(),
      equalOffset: z.object({ offset_mm: z.number(), allLegs: shift, oneLeg: z.array(shift).length(6) }).nullable(),
    })
    .nullable(),
  stiffness: z
    .object({
      weakest: z.object({ direction: vector, stiffness_N_mm: z.number() }),
      sag: shift,
      sideForce: shift.extend({ force_N: vector }),
      frequencies_Hz: z.array(z.number()),
      frequenciesNote: z.string().optional(),
      firstOrderHolds: z.boolean(),
      note: z.string().optional(),
    })
    .nullable(),
  forces: z
    .object({
      assumed: z.boolean(),
      leg_N: z.array(z.number()).length(6),
      largestPush: extreme,
      largestPull: extreme,
      mixedSigns: z.boolean(),
      explanation: z.string().nullable(),
      load: z.object({ force_N: vector, torque_N_mm: vector }),
    })
    .nullable(),
  clearance: z.object({
    smallest_mm: z.number().nullable(),
    pairs: z.array(z.object({ a: z.string(), b: z.string(), distance_mm: z.number() })),
  }),
});

/** Runs `pose` on the reference layout (rings of 100 and 70 mm, gaps 20/20, 150 mm high) with these fields added. */
async function pose(more: object, at?: string) {
  const design = JSON.stringify({ ...emptyDesign(), ...more });
  const printed = await command(at === undefined ? ['pose', '-'] : ['pose', '-', '--at', at], design);
  if (printed.code === 2) throw new Error(printed.err);
  return { ...printed, json: judged.parse(JSON.parse(printed.out)) };
}

function present<Value>(value: Value | null): Value {
  if (value === null) throw new Error('nothing was judged');
  return value;
}

describe('legs that are 0.05 mm off', () => {
  // figures of common practice for this layout, computed there independently of this program and rounded to whole units
  it('move the tool by 159, 167, 54 um and 54, 60, 104 mdeg at worst', async () => {
    const accuracy = present((await pose({ accuracy: { zero_mm: 0.05 } })).json.accuracy);
    expect(accuracy.worst.translation_mm.map((mm) => Math.round(1000 * mm))).toEqual([159, 167, 54]);
    expect(accuracy.worst.rotation_deg.map((deg) => Math.round(1000 * deg))).toEqual([54, 60, 104]);
    expect(accuracy.rss.translation_mm.map((mm) => Math.round(1000 * mm))).toEqual([73, 73, 22]);
    expect(accuracy.rss.rotation_deg.map((deg) => Math.round(1000 * deg))).toEqual([26, 26, 42]);
    expect(accuracy.assumed).toBe(false);
  });

  it('are what is assumed when the design says nothing, and the result says so', async () => {
    const assumed = present((await pose({})).json.accuracy);
    const stated = present((await pose({ accuracy: { zero_mm: 0.05 } })).json.accuracy);
    expect(assumed).toEqual({ ...stated, assumed: true });
  });

  it('shift the height alone when all are off, and shift and tilt when one is', async () => {
    // same source: 1 mm on all legs is 1.09 mm of height; on one leg 0.87 mm and 0.46 deg
    const { equalOffset: found } = present((await pose({})).json.accuracy);
    const equalOffset = present(found);
    const [x, y, z] = equalOffset.allLegs.translation_mm;
    expect(Math.hypot(x, y, ...equalOffset.allLegs.rotation_deg)).toBeLessThan(1e-12);
    // closed form of the heave rate: L / h
    expect(z).toBeCloseTo(163.32598628612 / 150, 9);
    for (const { translation_mm, rotation_deg } of equalOffset.oneLeg) {
      expect(Math.hypot(...translation_mm)).toBeCloseTo(0.87, 2);
      expect(Math.hypot(...rotation_deg)).toBeCloseTo(0.46, 2);
    }
  });

  it('are said to be too much for the first order next to a singular pose (yaw 90 deg for this layout), with the numbers left', async () => {
    const near = present((await pose({}, '0,0,150,0,0,89.99')).json.accuracy);
    expect(near.firstOrderHolds).toBe(false);
    expect(near.note).toMatch(/^Too close to a singular pose for a first-order figure: .+ more than 0\.1 rad/);
    expect(near.worst.turn_deg).toBeGreaterThan(360);
    expect(near.equalOffset).toBeNull();
    const home = present((await pose({})).json.accuracy);
    expect(home).toMatchObject({ firstOrderHolds: true });
    expect(home.note).toBeUndefined();
  });

  it('come apart into their sources, the largest first', async () => {
    const accuracy = { resolution_mm: 0.01, backlash_mm: 0.1, basePlay_mm: 0.04, zero_mm: 0 };
    const { contributors } = present((await pose({ accuracy })).json.accuracy);
    expect(contributors.map(({ source }) => source)).toEqual([
      'leg backlash',
      'play of the base joint',
      'leg resolution',
    ]);
    // each alone acts as half its width: 10 to 1 and 10 to 4
    expect(contributors[0].worst_mm / contributors[2].worst_mm).toBeCloseTo(10, 9);
    expect(contributors.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9);
  });
});

describe('a payload of 2 kg', () => {
  const payload = { mass_kg: 2 };

  it('loads every leg with W L / (6 h), 3.6 N, at home', async () => {
    // closed form, check 10 of the reference list; 3.6 N is the figure of common practice for this layout
    const forces = present((await pose({ payload })).json.forces);
    for (const force of forces.leg_N) expect(force).toBeCloseTo((2 * 9.80665 * 163.32598628612) / (6 * 150), 8);
    expect(Math.round(10 * forces.leg_N[0]) / 10).toBe(3.6);
    expect([forces.mixedSigns, forces.assumed, forces.largestPull, forces.explanation]).toEqual([
      false,
      false,
      null,
      null,
    ]);
  });

  it('pushes with 19 N and pulls with 16 N in turn at yaw 75, and the words say why', async () => {
    // figures of common practice for this layout, computed there
    const forces = present((await pose({ payload }, '0,0,150,0,0,75')).json.forces);
    const signs = forces.leg_N.map(Math.sign);
    expect(signs.every((sign, leg) => sign === -signs[(leg + 1) % 6])).toBe(true);
    expect(Math.round(present(forces.largestPush).force_N)).toBe(19);
    expect(Math.round(present(forces.largestPull).force_N)).toBe(-16);
    expect(forces.mixedSigns).toBe(true);
  });

  it('is told of as running away near yaw 90', async () => {
    const forces = present((await pose({ payload }, '0,0,150,0,0,89')).json.forces);
    expect(forces.explanation).toMatch(
      /more than the whole load of 19.6 N.*grows without bound toward the singular pose/,
    );
  });

  it('weighs sideways when gravity points sideways, and nothing with a counterweight of its weight', async () => {
    const down = present((await pose({ payload, load: { gravityDirection: [0, 0, -5] } })).json.forces);
    expect(down.leg_N[0]).toBeCloseTo(3.5593, 3);
    const pull_N = 2 * 9.80665;
    const counterweight = { anchor_mm: [0, 0, 1000], attach_mm: [0, 0, 0], pull_N };
    const held = present((await pose({ payload, load: { counterweight } })).json.forces);
    for (const force of held.leg_N) expect(Math.abs(force)).toBeLessThan(1e-9);
  });
});

describe('legs of 100 N/mm under 2 kg', () => {
  const more = { stiffness: { leg_N_mm: 100 }, payload: { mass_kg: 2 } };

  it('sag by W L^2 / (6 k h^2)', async () => {
    const stiffness = present((await pose(more)).json.stiffness);
    // closed form: level, sum u_z^2 = 6 h^2 / L^2 (check 6 of the reference list), so K_zz = 6 k h^2 / L^2
    const heave = (6 * 100 * 150 ** 2) / 163.32598628612 ** 2;
    expect(stiffness.sag.translation_mm[2]).toBeCloseTo((-2 * 9.80665) / heave, 9);
    expect(Math.hypot(stiffness.sag.translation_mm[0], stiffness.sag.translation_mm[1])).toBeLessThan(1e-12);
    // a point mass: the three translations alone have a frequency, and heave is one of them
    expect(stiffness.frequencies_Hz).toHaveLength(3);
    const heaveHz = Math.sqrt((1000 * heave) / 2) / (2 * Math.PI);
    expect(Math.min(...stiffness.frequencies_Hz.map((hz) => Math.abs(hz / heaveHz - 1)))).toBeLessThan(1e-9);
  });

  it('give way in series with their joints', async () => {
    const alone = present((await pose(more)).json.stiffness);
    const joints = { leg_N_mm: 100, baseJoint_N_mm: 200, platformJoint_N_mm: 200 };
    const series = present((await pose({ ...more, stiffness: joints })).json.stiffness);
    expect(series.weakest.stiffness_N_mm / alone.weakest.stiffness_N_mm).toBeCloseTo(0.5, 9);
  });

  it('say so where the load would move the platform further than the first order holds', async () => {
    expect(present((await pose(more)).json.stiffness)).toMatchObject({ firstOrderHolds: true });
    const near = present((await pose(more, '0,0,150,0,0,89.5')).json.stiffness);
    expect(near.firstOrderHolds).toBe(false);
    expect(near.note).toMatch(/^Too close to a singular pose .* the load would cause a (shift|turn) of more than/);
  });

  it('are unknown when the design does not say', async () => {
    expect((await pose({})).json.stiffness).toBeNull();
  });
});

it('has no error, force or stiffness at a singular pose, and says that it is singular', async () => {
  const { code, json, err } = await pose({ stiffness: { leg_N_mm: 100 } }, '0,0,150,0,0,90');
  expect(code).toBe(1);
  expect([json.accuracy, json.forces, json.stiffness]).toEqual([null, null, null]);
  expect(err).toContain('singular at this pose');
});

describe('clearance', () => {
  it('is the distance to a post beside the legs, worked out by hand', async () => {
    // an upright post on the axis; by symmetry the legs are nearest to it where the line of leg 1 passes the axis
    const post = { cylinder: { from_mm: [0, 0, -50], to_mm: [0, 0, 120], diameter_mm: 20 } };
    const keepOuts = [{ name: 'post', fixedTo: 'base', shape: post }];
    const { code, json, err } = await pose({ keepOuts });
    expect([code, err]).toEqual([0, '']);
    const toPlate = json.clearance.pairs.find(
      ({ a, b }) => `${a} ${b}`.includes('post') && !`${a}${b}`.includes('leg'),
    );
    // the assumed platform plate lies 150 mm up, 30 mm over the post's end
    expect(toPlate?.distance_mm ?? 30).toBeCloseTo(30, 9);
  });

  it('names two bodies that meet as a finding', async () => {
    const box = { middle_mm: [100, 0, 40], size_mm: [60, 60, 60] };
    const { code, lines } = await pose({ keepOuts: [{ name: 'motor', fixedTo: 'base', shape: { box } }] });
    expect(code).toBe(1);
    expect(lines).toContain('Leg 1 barrel meets motor.');
  });
});

describe('joints', () => {
  const corners = [-1, 1].flatMap((x) =>
    [-1, 1].flatMap((y) =>
      [-1, 1].flatMap((z) =>
        [-1, 1].flatMap((a) =>
          [-1, 1].flatMap((b) =>
            [-1, 1].map((c) => `${20 * x},${20 * y},${150 + 20 * z},${10 * a},${10 * b},${10 * c}`),
          ),
        ),
      ),
    ),
  );

  async function mostOver(joint: object) {
    const most = { base: 0, platform: 0, shortest: Number.POSITIVE_INFINITY, longest: 0 };
    for (const corner of corners) {
      const { json } = await pose({ joints: { base: joint, platform: joint } }, corner);
      for (const leg of json.legs) {
        most.base = Math.max(most.base, leg.baseTilt_deg);
        most.platform = Math.max(most.platform, leg.platformTilt_deg);
        most.shortest = Math.min(most.shortest, leg.length_mm);
        most.longest = Math.max(most.longest, leg.length_mm);
      }
    }
    return most;
  }

  it.each([
    ['square', [39.6, 50.4], ['43.092415', '53.831267']],
    ['aimed', [16.4, 27.8], ['19.809634', '31.875071']],
  ] as const)(
    'mounted %s lean by more than the sampled %j deg at the corners of a box of 20 mm and 10 deg',
    async (mount, sampled, corners) => {
      const most = await mostOver({ kind: 'ball', tilt_deg: 90, mount });
      // figures of common practice for this layout; the largest of random poses there, so the corners go further
      expect(most.base).toBeGreaterThan(sampled[0]);
      expect(most.platform).toBeGreaterThan(sampled[1]);
      // the corners worked out once more with a general-purpose array library, from the joint angles and R = Rz Ry Rx alone
      expect([most.base.toFixed(6), most.platform.toFixed(6)]).toEqual(corners);
      // leg lengths of common practice, which were taken at the corners
      expect([most.shortest.toFixed(1), most.longest.toFixed(1)]).toEqual(['116.5', '214.8']);
    },
    60_000,
  );

  it('that are rod ends stop across their bolt, not round it', async () => {
    const joint = { kind: 'rodEnd', tilt_deg: 14, mount: 'square', bolt: 'acrossLeg' };
    const ball = { kind: 'ball', tilt_deg: 60, mount: 'square' };
    // square mounts: each leg leans by 23.3 deg at home, all of it round the bolt
    const home = await pose({ joints: { base: joint, platform: ball } });
    expect([home.code, home.err]).toEqual([0, '']);
    expect(home.json.legs[0].baseTilt_deg).toBeGreaterThan(23);
    expect(home.json.legs[0].baseMargin_deg).toBeCloseTo(14, 9);
    const aside = await pose({ joints: { base: joint, platform: ball } }, '45,0,150,0,0,0');
    expect(
      aside.lines.some((line) => /^Leg \d is .* deg past the limit of its base joint, a rod end\.$/.test(line)),
    ).toBe(true);
  });

  it('that are universal twist the leg and change its length by the screw lead', async () => {
    const joint = { kind: 'universal', tilt_deg: 60, mount: 'aimed' };
    const design = { joints: { base: joint, platform: joint }, legs: { ...emptyDesign().legs, screwLead_mm: 8 } };
    const home = await pose(design);
    for (const leg of home.json.legs) expect(Math.abs(leg.twist_deg ?? 1)).toBeLessThan(1e-9);
    const turned = await pose(design, '0,0,150,0,0,15');
    for (const leg of turned.json.legs) {
      expect(Math.abs(leg.twist_deg ?? 0)).toBeGreaterThan(1);
      expect(leg.twistLength_mm).toBeCloseTo(((leg.twist_deg ?? 0) / 360) * 8, 9);
    }
  });
});

describe('reach with floors', () => {
  const reachOutput = z.object({
    volume_cm3: z.number(),
    homeConnected_cm3: z.number(),
    usable_cm3: z.number(),
    usable: z.object({
      reachable_cm3: z.number(),
      floors: z.array(z.object({ quantity: z.string(), value: z.number(), share: z.number(), best: z.number() })),
    }),
  });

  async function reach(more: object, ...floors: readonly string[]) {
    const options = floors.flatMap((floor) => ['--floor', floor]);
    const printed = await command(['reach', '-', ...options], JSON.stringify({ ...emptyDesign(), ...more }));
    return { ...printed, json: printed.code === 2 ? null : reachOutput.parse(JSON.parse(printed.out)) };
  }

  it('counts all that is connected with home on its side as usable when there are none', async () => {
    const json = present((await reach({})).json);
    expect(Math.abs(json.usable_cm3 / json.homeConnected_cm3 - 1)).toBeLessThan(0.02);
  });

  it('says where bodies meet at home, unless a floor on clearance counts them', async () => {
    const keepOuts = [
      { name: 'post', fixedTo: 'base', shape: { box: { middle_mm: [85, 0, 75], size_mm: [20, 20, 150] } } },
    ];
    const plain = await reach({ keepOuts });
    expect(plain.code).toBe(1);
    expect(plain.err).toContain('meets post. Only a floor on clearance leaves such poses out of the usable volume.');
    expect((await reach({ keepOuts }, 'clearance_mm=0')).err).not.toContain('Only a floor on clearance');
    expect((await reach({})).err).toBe('');
  });

  it('counts less the higher the floor, and names a floor that nothing meets', async () => {
    const more = { stiffness: { leg_N_mm: 100 } };
    const low = present((await reach(more, 'stiffness_N_mm=20', 'clearance_mm=0')).json);
    const high = present((await reach(more, 'stiffness_N_mm=50')).json);
    expect(low.usable_cm3).toBeGreaterThan(high.usable_cm3);
    const [stiffness] = low.usable.floors;
    expect([stiffness.quantity, stiffness.value]).toEqual(['stiffness_N_mm', 20]);
    const none = await reach(more, 'stiffness_N_mm=5000');
    expect(none.code).toBe(1);
    expect(none.err).toMatch(
      /^Nothing is usable: Nothing in the reach has a weakest stiffness of at least 5000 N\/mm; the best found is \d/,
    );
    expect(present(none.json).usable_cm3).toBe(0);
  });

  it('takes the floors that the design states, unless others are given', async () => {
    const more = { floors: { baseMargin_deg: 4, clearance_mm: 1 } };
    const own = present((await reach(more)).json).usable.floors;
    expect(own.map(({ quantity }) => quantity)).toEqual(['clearance_mm', 'baseMargin_deg']);
    expect(own[1].value).toBeCloseTo(4, 9);
    const other = present((await reach(more, 'baseMargin_deg=5')).json).usable.floors;
    expect(other.map(({ quantity, value }) => [quantity, Math.round(value)])).toEqual([['baseMargin_deg', 5]]);
    const unknown = await reach({ floors: { stiffness_N_mm: 5 } });
    expect(unknown.err).toMatch(/^floors\.stiffness_N_mm is asked of a design without stiffness/);
  });

  it('takes angles in degrees', async () => {
    const json = present((await reach({}, 'baseMargin_deg=5')).json);
    expect(json.usable.floors[0].value).toBeCloseTo(5, 9);
    // no joint has more room than its limit of 25 deg
    expect(json.usable.floors[0].best).toBeGreaterThan(5);
    expect(json.usable.floors[0].best).toBeLessThanOrEqual(25.001);
  });

  it('takes a share of the one reach, whatever the joints: that connected with home', async () => {
    for (const joint of [
      { kind: 'ball', tilt_deg: 14, mount: 'aimed' },
      { kind: 'rodEnd', tilt_deg: 14, mount: 'aimed' },
      { kind: 'universal', tilt_deg: 14, mount: 'aimed', secondTilt_deg: 20 },
    ]) {
      const json = present((await reach({ joints: { base: joint, platform: joint } })).json);
      expect(json.usable.reachable_cm3).toBe(json.homeConnected_cm3);
      expect(json.usable_cm3).toBeLessThanOrEqual(json.homeConnected_cm3);
      expect(json.usable_cm3).toBeGreaterThan(0);
    }
  });

  it.each([
    [
      ['stifness_N_mm=5'],
      /^--floor is "stifness_N_mm=5"; it must be one of condition, firmness, toolError_mm, .* with a value\. Write --floor stiffness_N_mm=value\.\n$/,
    ],
    [
      ['condition'],
      /^--floor condition is ""; it must be one number behind the =\. Write --floor condition=value\.\n$/,
    ],
    [['condition=soft'], /^--floor condition is "soft"; it must be one number behind the =\. /],
    [['condition=9', 'condition=8'], /^--floor condition is given twice; it must be given once\. Leave one out\.\n$/],
    [
      ['stiffness_N_mm=5'],
      /^--floor stiffness_N_mm is asked of a design without stiffness; it must be asked of one that says stiffness\.leg_N_mm\. /,
    ],
  ] as const)('refuses %j', async (floors, message) => {
    const { code, out, err } = await reach({}, ...floors);
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(message);
  });

  it('lists the quantities in the help', async () => {
    const { out } = await command(['--help']);
    for (const name of [
      'condition',
      'toolError_mm',
      'stiffness_N_mm',
      'legForce_N',
      'leastPush_N',
      'clearance_mm',
      'baseMargin_deg',
    ])
      expect(out).toContain(`  ${name} `);
  });
});

describe('prove', () => {
  const answer = z.object({ answer: z.enum(['proven', 'refuted', 'undecided']) });
  const proofOutput = z.object({
    answer: z.enum(['proven', 'refuted', 'undecided']),
    reachable: answer.extend({ reason: z.string().optional() }),
    regular: answer.extend({ share: z.number().optional() }),
    clear: answer,
    boxes: z.number(),
  });

  async function prove(...options: readonly string[]) {
    const printed = await command(['prove', VALID('rings-without-holes'), ...options]);
    return { ...printed, json: printed.code === 2 ? null : proofOutput.parse(JSON.parse(printed.out)) };
  }

  it('proves a small box about home', async () => {
    const { code, err, json } = await prove('--box', '3,3,3,1,1,1');
    expect([code, err, json?.answer]).toEqual([0, '', 'proven']);
  });

  it('refutes a box that reaches the yaw of 90 deg, with a pose', async () => {
    // singular at yaw 90 deg: closed form, check 7 of the reference list
    const { code, lines, json } = await prove('--box', '0,0,0,0,0,5', '--at', '0,0,150,0,0,88', '--depth', '6');
    expect(code).toBe(1);
    expect(json?.regular.answer).toBe('refuted');
    expect(
      lines.some((line) => line.startsWith('Not every pose of the box is free of singular poses. At 0,0,150,0,0,')),
    ).toBe(true);
  });

  it('leaves a box undecided when no halving is allowed, and says how much of it', async () => {
    const { code, json } = await prove('--box', '10,10,10,5,5,5', '--depth', '0');
    expect(code).toBe(1);
    expect(json?.answer).not.toBe('proven');
    expect(json?.regular).toMatchObject({ answer: 'undecided', share: 1 });
  });

  it.each([
    [[], '--box is missing; it must be six half ranges x,y,z,roll,pitch,yaw. Write --box x,y,z,roll,pitch,yaw.\n'],
    [['--box', '1,1,1,1,1,-1'], '--box yaw is -1; it must be from 0 to 90. Raise it to 0 or more.\n'],
    [['--box', '1,1,1,1,1,1', '--depth', '2.5'], /^--depth is 2\.5; it must be a whole number from 0 to 60\. /],
  ] as const)('refuses %j', async (options, message) => {
    const { code, err } = await prove(...options);
    expect(code).toBe(2);
    expect(err).toMatch(message);
  });
});

describe('payloads that are turned or lie askew', () => {
  const swings = async (shape: object) => {
    const stiffness = { leg_N_mm: 100 };
    const { json } = await pose({ stiffness, payload: { mass_kg: 3, shape } });
    return present(json.stiffness).frequencies_Hz;
  };

  it('swing as they do unturned: the platform is level and three-fold, so its K is the same from every side', async () => {
    const bar = (boxTurn_deg: number) => ({
      box: { middle_mm: [0, 0, 20], size_mm: [400, 20, 10], boxTurn_deg },
    });
    const straight = await swings(bar(0));
    expect(straight).toHaveLength(6);
    for (const turn of [45, 90, -30])
      (await swings(bar(turn))).forEach((value, n) => expect(value / straight[n]).toBeCloseTo(1, 9));
  });

  it('of a cylinder swing the same whichever way it lies in the plane', async () => {
    const rod = (turn: number) => {
      const [x, y] = [150 * Math.cos(turn), 150 * Math.sin(turn)];
      return { cylinder: { from_mm: [-x, -y, 20], to_mm: [x, y, 20], diameter_mm: 12 } };
    };
    const straight = await swings(rod(0));
    for (const turn of [0.4, Math.PI / 4, 2.1])
      (await swings(rod(turn))).forEach((value, n) => expect(value / straight[n]).toBeCloseTo(1, 9));
  });

  it('of a wedge pull at the centroid of its solid: weight times a third of each leg of its triangle', async () => {
    const corners_mm = [0, 30].flatMap((z) => [
      [0, 0, z],
      [60, 0, z],
      [0, 90, z],
    ]);
    const { json } = await pose({ payload: { mass_kg: 2, shape: { hull: { corners_mm } } } });
    const weight = 2 * 9.80665;
    const torque = present(json.forces).load.torque_N_mm;
    [-weight * 30, weight * 20, 0].forEach((value, axis) => expect(torque[axis]).toBeCloseTo(value, 9));
  });
});

it('says why a point mass has three natural frequencies', async () => {
  const { json } = await pose({ stiffness: { leg_N_mm: 100 }, payload: { mass_kg: 1 } });
  const stiffness = present(json.stiffness);
  expect(stiffness.frequencies_Hz).toHaveLength(3);
  expect(stiffness.frequenciesNote).toContain('a point mass has no inertia');
});
