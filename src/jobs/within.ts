/** Something did not answer in the time that it was given. */
export class TookTooLong extends Error {
  override readonly name = 'TookTooLong';
}

/** The value, or {@link TookTooLong} when it takes longer than `time` [ms]; what comes later is dropped. */
export async function within<Value>(time: number, value: Promise<Value>): Promise<Value> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const late = new Promise<never>((_, refuse) => {
    timer = setTimeout(() => refuse(new TookTooLong(`no answer within ${time} ms`)), time);
  });
  try {
    return await Promise.race([value, late]);
  } finally {
    clearTimeout(timer);
  }
}
