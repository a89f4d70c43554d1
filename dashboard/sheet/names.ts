import { usePart } from '../store/use.tsx';

/** The name of a loading position, by its id. */
export function usePositionName(): (id: string) => string {
  const loading = usePart('loading');
  return (id) => loading.find((one) => one.id === id)?.name ?? id;
}
