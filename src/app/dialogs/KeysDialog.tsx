import { Table } from '../../ui/Table.tsx';
import { KEY_GROUPS, type KeyGroup, keyName } from '../keys.ts';
import { DialogFrame } from './DialogFrame.tsx';
import styles from './dialogs.module.css';

export function KeysDialog() {
  return (
    <DialogFrame
      title="Keys"
      description="Drag the 3D view to turn it, turn the wheel or pinch to zoom, drag with the right button or two fingers to shift it. Drag the handles at the tool point to move the platform, with Shift by whole millimetres and degrees."
    >
      {KEY_GROUPS.map((group) => (
        <Group key={group.title} {...group} />
      ))}
    </DialogFrame>
  );
}

function Group({ title, rows }: KeyGroup) {
  return (
    <Table className={styles['keys']}>
      <caption className={styles['group']}>{title}</caption>
      <tbody>
        {rows.map(({ keys, does }) => (
          <tr key={does}>
            <th scope="row">
              {keys.map((key, index) => (
                <span key={key}>
                  {index > 0 && ' '}
                  <kbd>{keyName(key)}</kbd>
                </span>
              ))}
            </th>
            <td>{does}</td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
