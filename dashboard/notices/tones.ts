/** Two soft tones for a call, three higher ones for what is urgent: made here, so that no file has to be loaded. */
const TONES = { call: [440, 550], urgent: [660, 880, 660] } as const;
const LONG = 0.22;
const APART = 0.28;
const LOUD = 0.25;

let context: AudioContext | undefined;
/** Until when it sounds already, by the context's clock. */
let until = 0;
let silenced = () => {};

/** A page may sound only once somebody has touched it: to be called from a touch. */
export async function allowSound(): Promise<boolean> {
  context ??= new AudioContext();
  context.onstatechange = () => maySound() || silenced();
  await context.resume();
  return maySound();
}

/** What is done when the browser takes the sound from the page, as phones do when they are locked. */
export function whenSilenced(act: () => void): void {
  silenced = act;
}

/** Whether the page may sound now. */
export function maySound(): boolean {
  return context?.state === 'running';
}

/** What is asked for while it sounds already comes after that. */
export function playTones(which: keyof typeof TONES): void {
  if (context?.state !== 'running') return;
  const first = Math.max(context.currentTime, until);
  until = first + TONES[which].length * APART;
  for (const [place, pitch] of TONES[which].entries()) {
    const begin = first + place * APART;
    const tone = context.createOscillator();
    const volume = context.createGain();
    tone.frequency.value = pitch;
    volume.gain.setValueAtTime(0, begin);
    volume.gain.linearRampToValueAtTime(LOUD, begin + 0.03);
    volume.gain.linearRampToValueAtTime(0, begin + LONG);
    tone.connect(volume).connect(context.destination);
    tone.start(begin);
    tone.stop(begin + LONG);
  }
}
