import type { Vec3 } from '../../math/vec3.ts';

/** A real of the format: always a decimal point, never -0, sixteen digits. */
function real(value: number): string {
  const clean = value === 0 ? 0 : value;
  const text = String(clean).toUpperCase();
  if (text.includes('E')) {
    const [mantissa, exponent] = text.split('E');
    return `${mantissa.includes('.') ? mantissa : `${mantissa}.`}E${exponent}`;
  }
  return text.includes('.') ? text : `${text}.`;
}

/** A string of the format: quotes doubled, anything beyond ASCII as UTF-16 in hexadecimal (ISO 10303-21). */
export function stepString(words: string): string {
  let out = '';
  for (const letter of words) {
    const code = letter.codePointAt(0) ?? 32;
    if (letter === "'") out += "''";
    else if (letter === '\\') out += '\\\\';
    else if (code >= 32 && code < 127) out += letter;
    else if (code >= 127) {
      let hex = '';
      for (let n = 0; n < letter.length; n++) hex += letter.charCodeAt(n).toString(16).toUpperCase().padStart(4, '0');
      out += `\\X2\\${hex}\\X0\\`;
    }
  }
  return `'${out}'`;
}

/** An edge with the vertices at its ends; a closed one begins and ends in one vertex. */
export interface Edge {
  readonly id: number;
}

/** An edge as a loop runs through it: along it, or against. */
export interface Side {
  readonly edge: Edge;
  readonly along: boolean;
}

export const along = (edge: Edge): Side => ({ edge, along: true });
export const against = (edge: Edge): Side => ({ edge, along: false });

/** Where a surface or a curve sits: its origin, its axis and the direction from which it counts. */
export interface Placing {
  readonly origin: Vec3;
  readonly axis: Vec3;
  readonly from: Vec3;
}

/**
 * A solid with exact faces as a STEP file (ISO 10303-21, application protocol 214), written entity by entity. The recipe that readers take: a
 * closed curve has one vertex, a cylinder and a sphere have one seam, a loop has the material to its left seen from outside.
 */
export class StepSolid {
  readonly #lines: string[] = [];
  readonly #faces: number[] = [];

  #add(body: string): number {
    this.#lines.push(body);
    return this.#lines.length;
  }

  #point = ([x, y, z]: Vec3): number => this.#add(`CARTESIAN_POINT('',(${real(x)},${real(y)},${real(z)}))`);
  #direction = ([x, y, z]: Vec3): number => this.#add(`DIRECTION('',(${real(x)},${real(y)},${real(z)}))`);
  #placing = ({ origin, axis, from }: Placing): number =>
    this.#add(`AXIS2_PLACEMENT_3D('',#${this.#point(origin)},#${this.#direction(axis)},#${this.#direction(from)})`);

  vertex(at: Vec3): number {
    return this.#add(`VERTEX_POINT('',#${this.#point(at)})`);
  }

  line(from: number, to: number, start: Vec3, end: Vec3): Edge {
    const [dx, dy, dz] = [end[0] - start[0], end[1] - start[1], end[2] - start[2]];
    const length = Math.hypot(dx, dy, dz);
    const vector = this.#add(`VECTOR('',#${this.#direction([dx / length, dy / length, dz / length])},${real(length)})`);
    return this.#edge(from, to, this.#add(`LINE('',#${this.#point(start)},#${vector})`));
  }

  /** Counter-clockwise about the axis; `from` names the direction of parameter 0. */
  circle(from: number, to: number, placing: Placing, radius: number): Edge {
    return this.#edge(from, to, this.#add(`CIRCLE('',#${this.#placing(placing)},${real(radius)})`));
  }

  /** `from` names the direction of its long half axis. */
  ellipse(from: number, to: number, placing: Placing, long: number, short: number): Edge {
    return this.#edge(from, to, this.#add(`ELLIPSE('',#${this.#placing(placing)},${real(long)},${real(short)})`));
  }

  #edge(from: number, to: number, curve: number): Edge {
    return { id: this.#add(`EDGE_CURVE('',#${from},#${to},#${curve},.T.)`) };
  }

  plane(placing: Placing, loops: readonly (readonly Side[])[]): void {
    this.#face(this.#add(`PLANE('',#${this.#placing(placing)})`), loops, true);
  }

  /** `outward`: the material is inside of it. */
  cylinder(placing: Placing, radius: number, loop: readonly Side[], outward: boolean): void {
    this.#face(this.#add(`CYLINDRICAL_SURFACE('',#${this.#placing(placing)},${real(radius)})`), [loop], outward);
  }

  sphere(placing: Placing, radius: number, loop: readonly Side[], outward: boolean): void {
    this.#face(this.#add(`SPHERICAL_SURFACE('',#${this.#placing(placing)},${real(radius)})`), [loop], outward);
  }

  /** The first loop is the outer one. */
  #face(surface: number, loops: readonly (readonly Side[])[], sense: boolean): void {
    const bounds = loops.map((sides, n) => {
      const edges = sides.map(({ edge, along: same }) =>
        this.#add(`ORIENTED_EDGE('',*,*,#${edge.id},${same ? '.T.' : '.F.'})`),
      );
      const loop = this.#add(`EDGE_LOOP('',(${edges.map((id) => `#${id}`).join(',')}))`);
      return this.#add(`${n === 0 ? 'FACE_OUTER_BOUND' : 'FACE_BOUND'}('',#${loop},.T.)`);
    });
    const list = bounds.map((id) => `#${id}`).join(',');
    this.#faces.push(this.#add(`ADVANCED_FACE('',(${list}),#${surface},${sense ? '.T.' : '.F.'})`));
  }

  /** The file; `date` is YYYY-MM-DD. */
  finish(name: string, description: string, date: string, program: string): string {
    const shell = this.#add(`CLOSED_SHELL('',(${this.#faces.map((id) => `#${id}`).join(',')}))`);
    const solid = this.#add(`MANIFOLD_SOLID_BREP(${stepString(name)},#${shell})`);
    const world = this.#placing({ origin: [0, 0, 0], axis: [0, 0, 1], from: [1, 0, 0] });
    const application = this.#add(`APPLICATION_CONTEXT('core data for automotive mechanical design processes')`);
    this.#add(`APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,#${application})`);
    const productContext = this.#add(`PRODUCT_CONTEXT('',#${application},'mechanical')`);
    const product = this.#add(`PRODUCT(${stepString(name)},${stepString(name)},'',(#${productContext}))`);
    this.#add(`PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(#${product}))`);
    const formation = this.#add(`PRODUCT_DEFINITION_FORMATION('','',#${product})`);
    const definitionContext = this.#add(`PRODUCT_DEFINITION_CONTEXT('part definition',#${application},'design')`);
    const definition = this.#add(`PRODUCT_DEFINITION('design','',#${formation},#${definitionContext})`);
    const shape = this.#add(`PRODUCT_DEFINITION_SHAPE('','',#${definition})`);
    const millimetre = this.#add('( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.MILLI.,.METRE.) )');
    const radian = this.#add('( NAMED_UNIT(*) PLANE_ANGLE_UNIT() SI_UNIT($,.RADIAN.) )');
    const steradian = this.#add('( NAMED_UNIT(*) SI_UNIT($,.STERADIAN.) SOLID_ANGLE_UNIT() )');
    const uncertainty = this.#add(
      `UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-6),#${millimetre},'distance_accuracy_value','confusion accuracy')`,
    );
    const context = this.#add(
      `( GEOMETRIC_REPRESENTATION_CONTEXT(3) GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((#${uncertainty})) GLOBAL_UNIT_ASSIGNED_CONTEXT((#${millimetre},#${radian},#${steradian})) REPRESENTATION_CONTEXT('Context #1','3D Context with UNIT and UNCERTAINTY') )`,
    );
    const representation = this.#add(
      `ADVANCED_BREP_SHAPE_REPRESENTATION(${stepString(name)},(#${world},#${solid}),#${context})`,
    );
    this.#add(`SHAPE_DEFINITION_REPRESENTATION(#${shape},#${representation})`);
    return `ISO-10303-21;
HEADER;
FILE_DESCRIPTION((${stepString(description)}),'2;1');
FILE_NAME(${stepString(name)},'${date}T00:00:00',(''),(''),${stepString(program)},${stepString(program)},'');
FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));
ENDSEC;
DATA;
${this.#lines.map((body, n) => `#${n + 1}=${body};`).join('\n')}
ENDSEC;
END-ISO-10303-21;
`;
  }
}
