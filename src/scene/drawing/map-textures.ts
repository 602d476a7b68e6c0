import type { DataTexture } from 'three';
import { colourTable } from '../../state/colour/colour-table.ts';
import { MAPS, type MapName } from '../colour/maps.ts';
import { tableTexture } from './reach-material.ts';

const textureOf = (name: MapName): DataTexture => tableTexture(colourTable(MAPS[name]));

/** The colour maps on the graphics card. */
export class MapTextures {
  private readonly textures: Readonly<Record<MapName, DataTexture>> = {
    less: textureOf('less'),
    more: textureOf('more'),
    signed: textureOf('signed'),
  };

  of(name: MapName): DataTexture {
    return this.textures[name];
  }

  dispose(): void {
    for (const texture of Object.values(this.textures)) texture.dispose();
  }
}
