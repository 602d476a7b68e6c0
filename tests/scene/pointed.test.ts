import { describe, expect, it } from 'vitest';
import { length, subtract } from '../../src/math/vec3.ts';
import { boxEdges } from '../../src/scene/drawing/pointed-drawing.ts';
import { pointedWords } from '../../src/scene/model/pointed-words.ts';

describe('what is pointed at', () => {
  it('is said in words: a pose in millimetres and degrees, and a box', () => {
    expect(pointedWords({ pose: null, box: null })).toBeNull();
    const pose = { position: [1, -2, 150], roll: 0, pitch: -0.00001, yaw: Math.PI / 4 } as const;
    const words = pointedWords({ pose, box: { centre: pose, half: pose } });
    expect(words).toContain('x 1.0, y −2.0, z 150.0 mm, roll 0.0, pitch 0.0, yaw 45.0 deg');
    expect(words?.split('\n')).toHaveLength(2);
  });

  it('is drawn as the twelve edges of a box: four of each side', () => {
    const edges = boxEdges([1, 2, 3], [10, 20, 30]);
    const lengths = edges.map(([one, other]) => length(subtract(one, other))).sort((a, b) => a - b);
    expect(lengths).toEqual([20, 20, 20, 20, 40, 40, 40, 40, 60, 60, 60, 60]);
  });
});
