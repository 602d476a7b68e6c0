import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import loadMujoco from '@mujoco/mujoco';
import DxfParser from 'dxf-parser';

/** A written file, and what is known of it without reading it. */
export interface OutsideFile {
  readonly path: string;
  readonly bytes: Uint8Array;
  /** Volume of a plate by its closed form [mm^3]; null for other files. */
  readonly volume: number | null;
}

/** A program or library that has nothing of this project and reads one of its formats. */
export interface Reader {
  readonly name: string;
  readonly endings: readonly string[];
  /** Null when it is here; else what is missing. */
  readonly missing: () => string | null;
  /** What is wrong with a file, a line each. */
  readonly read: (file: OutsideFile) => Promise<readonly string[]>;
}

/** Python with the system's own packages, where there is one. */
const PYTHON = existsSync('/usr/bin/python3') ? '/usr/bin/python3' : 'python3';

const hasProgram = (name: string) => () =>
  spawnSync('sh', ['-c', `command -v ${name}`]).status === 0 ? null : `program ${name}`;

const hasModule = (name: string) => () =>
  spawnSync(PYTHON, ['-c', `import ${name}`]).status === 0 ? null : `Python module ${name}`;

/** Runs a Python text on a file; what it prints is what is wrong. */
const python =
  (text: string) =>
  async (file: OutsideFile): Promise<readonly string[]> => {
    const { stdout, stderr, status } = spawnSync(PYTHON, ['-c', text, file.path, String(file.volume ?? '')], {
      encoding: 'utf8',
    });
    return status === 0
      ? stdout.split('\n').filter((line) => line !== '')
      : [stderr.trim().split('\n').at(-1) ?? 'failed'];
  };

/** A hundred millimetres in points. */
const RULE = (100 * 72) / 25.4;

export const READERS: readonly Reader[] = [
  {
    name: 'dxf-parser',
    endings: ['dxf'],
    missing: () => null,
    read: async ({ bytes }) => {
      const drawing = new DxfParser().parseSync(new TextDecoder().decode(bytes));
      return drawing && drawing.entities.length > 0 ? [] : ['nothing is drawn'];
    },
  },
  {
    name: 'ezdxf audit',
    endings: ['dxf'],
    missing: hasModule('ezdxf'),
    read: python(
      [
        'import ezdxf,sys',
        'd=ezdxf.readfile(sys.argv[1]); a=d.audit()',
        'print("\\n".join(str(e.message) for e in a.errors+a.fixes))',
        'if d.dxfversion!="AC1009": print("version",d.dxfversion)',
        'if len(d.modelspace().query("CIRCLE[layer==\'DRILL\']"))<1: print("no hole")',
      ].join('\n'),
    ),
  },
  {
    name: 'qpdf --check',
    endings: ['pdf'],
    missing: hasProgram('qpdf'),
    read: async ({ path }) => {
      const { status, stdout, stderr } = spawnSync('qpdf', ['--check', path], { encoding: 'utf8' });
      return status === 0 ? [] : [stdout + stderr];
    },
  },
  {
    name: 'poppler, text and fonts',
    endings: ['pdf'],
    missing: hasProgram('pdftotext'),
    read: async ({ path }) => {
      const text = spawnSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
      const fonts = execFileSync('pdffonts', [path], { encoding: 'utf8' });
      return [
        ...(text.stderr === '' ? [] : [text.stderr]),
        ...(text.stdout.includes('rule: 100 mm along x') ? [] : ['the rule is not named']),
        ...(fonts
          .split('\n')
          .slice(2, -1)
          .every((line) => / yes (yes|no) +yes /.test(line))
          ? []
          : ['a font is not embedded']),
      ];
    },
  },
  {
    name: 'mutool trace, 100 mm rules',
    endings: ['pdf'],
    missing: hasProgram('mutool'),
    read: async ({ path }) => {
      const trace = execFileSync('mutool', ['trace', path], { encoding: 'utf8', maxBuffer: 1 << 28 });
      const paths =
        /<stroke_path[^>]*transform="([-\d.e]+) ([-\d.e]+) ([-\d.e]+) ([-\d.e]+)[^>]*>\s*<moveto x="([-\d.e]+)" y="([-\d.e]+)"\/>\s*<lineto x="([-\d.e]+)" y="([-\d.e]+)"\/>\s*<\/stroke_path>/g;
      const found = { x: false, y: false };
      for (const [, ...numbers] of trace.matchAll(paths)) {
        const [a, b, c, d, x0, y0, x1, y1] = numbers.map(Number);
        const [dx, dy] = [a * (x1 - x0) + c * (y1 - y0), b * (x1 - x0) + d * (y1 - y0)];
        // mutool prints coordinates to six digits
        if (Math.abs(Math.abs(dx) - RULE) < 1e-2 && Math.abs(dy) < 1e-2) found.x = true;
        if (Math.abs(Math.abs(dy) - RULE) < 1e-2 && Math.abs(dx) < 1e-2) found.y = true;
      }
      return [...(found.x ? [] : ['no rule of 283.465 points along x']), ...(found.y ? [] : ['none along y'])];
    },
  },
  {
    name: "Python's XML, size of SVG",
    endings: ['svg'],
    missing: hasProgram(PYTHON),
    read: python(
      [
        'import sys,xml.etree.ElementTree as x',
        'r=x.parse(sys.argv[1]).getroot(); w=r.get("width"); v=r.get("viewBox").split()',
        'if not w.endswith("mm") or float(w[:-2])!=float(v[2]): print("not in true size",w,v)',
      ].join('\n'),
    ),
  },
  {
    name: 'gmsh, volume of STEP',
    endings: ['step'],
    missing: hasModule('gmsh'),
    read: python(
      [
        'import gmsh,sys',
        'gmsh.initialize(); gmsh.option.setNumber("General.Terminal",0)',
        's=gmsh.model.occ.importShapes(sys.argv[1]); gmsh.model.occ.synchronize()',
        'v=[t for d,t in s if d==3]',
        'if len(v)!=1: print("solids:",len(v))',
        'elif sys.argv[2]:',
        '  m=gmsh.model.occ.getMass(3,v[0]); e=float(sys.argv[2])',
        '  if abs(m/e-1)>1e-6: print("volume",m,"closed form",e)',
      ].join('\n'),
    ),
  },
  {
    name: 'admesh',
    endings: ['stl'],
    missing: hasProgram('admesh'),
    read: async ({ path }) => {
      const told = execFileSync('admesh', [path], { encoding: 'utf8' });
      const numbers = (line: string) => [...(new RegExp(`${line}[^:]*:(.*)`).exec(told)?.[1] ?? '1').matchAll(/\d+/g)];
      return ['Total disconnected facets', 'Degenerate facets', 'Edges fixed', 'Facets reversed', 'Backwards edges']
        .filter((line) => Number(numbers(line).at(0)?.[0] ?? 1) !== 0)
        .map((line) => `${line} is not 0`);
    },
  },
  {
    name: "Python's zip and XML, 3MF",
    endings: ['3mf'],
    missing: hasProgram(PYTHON),
    read: python(
      [
        'import sys,zipfile,xml.etree.ElementTree as x',
        'z=zipfile.ZipFile(sys.argv[1])',
        'if z.testzip(): print("broken")',
        'm=x.fromstring(z.read("3D/3dmodel.model"))',
        'if m.get("unit")!="millimeter": print("unit")',
      ].join('\n'),
    ),
  },
  {
    name: '@mujoco/mujoco',
    endings: ['mjcf.xml'],
    missing: () => null,
    read: async ({ bytes }) => {
      const mujoco = await loadMujoco();
      const model = mujoco.MjModel.from_xml_string(new TextDecoder().decode(bytes));
      const data = new mujoco.MjData(model);
      mujoco.mj_forward(model, data);
      const gap = Math.max(...Float64Array.from(data.efc_pos, Math.abs).slice(0, 18));
      data.delete();
      model.delete();
      return gap < 1e-6 ? [] : [`a loop is open by ${gap} m`];
    },
  },
  {
    name: 'libsdformat',
    endings: ['sdf'],
    missing: () => (spawnSync('pkg-config', ['--exists', 'sdformat12']).status === 0 ? null : 'library sdformat12'),
    read: async ({ path }) => {
      const { status, stdout } = spawnSync(sdfProgram(path), [path], { encoding: 'utf8' });
      return status === 0 ? [] : stdout.split('\n');
    },
  },
  {
    name: "Python's csv",
    endings: ['csv'],
    missing: hasProgram(PYTHON),
    read: python(
      [
        'import csv,sys',
        'r=list(csv.reader(open(sys.argv[1],newline="",encoding="utf-8"),strict=True))',
        'if any(len(x)!=len(r[0]) for x in r): print("ragged")',
      ].join('\n'),
    ),
  },
  {
    name: "Python's zip, with its hashes",
    endings: ['zip'],
    missing: hasProgram(PYTHON),
    read: python(
      [
        'import hashlib,sys,zipfile',
        'z=zipfile.ZipFile(sys.argv[1])',
        'for l in z.read("SHA256SUMS").decode().splitlines():',
        '  h,n=l.split("  ",1)',
        '  if hashlib.sha256(z.read(n)).hexdigest()!=h: print("hash of",n)',
      ].join('\n'),
    ),
  },
  {
    name: "Python's HTML parser",
    endings: ['html'],
    missing: hasProgram(PYTHON),
    read: python(
      [
        'import sys;from html.parser import HTMLParser as H',
        'open_=[]',
        'class P(H):',
        '  def handle_starttag(s,t,a):',
        '    if t not in ("meta","link","br","img"): open_.append(t)',
        '  def handle_startendtag(s,t,a): pass',
        '  def handle_endtag(s,t):',
        '    if not open_ or open_.pop()!=t: print("not closed:",t)',
        'P().feed(open(sys.argv[1],encoding="utf-8").read())',
        'if open_: print("left open",open_)',
      ].join('\n'),
    ),
  },
];

let compiled: string | null = null;

/** Compiles a few lines that load a model with the format's own library and print its complaints. */
function sdfProgram(beside: string): string {
  if (compiled) return compiled;
  const program = join(beside, '..', 'check-sdf');
  const source =
    '#include <sdf/sdf.hh>\n#include <iostream>\nint main(int, char **a) { sdf::Root r; auto e = r.Load(a[1]); for (auto &x : e) std::cout << x << "\\n"; return !e.empty() || !r.Model() || r.Model()->JointCount() != 19; }\n';
  const flags = execFileSync('pkg-config', ['--cflags', '--libs', 'sdformat12'], { encoding: 'utf8' })
    .trim()
    .split(/\s+/);
  execFileSync('g++', ['-x', 'c++', '-', '-o', program, ...flags], { input: source });
  compiled = program;
  return program;
}
