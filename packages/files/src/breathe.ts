/** Lets waiting messages through (cancel, progress) without the delay of timers. */
export function breathe(): Promise<void> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port2.onmessage = () => {
      port2.close();
      resolve();
    };
    port1.postMessage(null);
  });
}
