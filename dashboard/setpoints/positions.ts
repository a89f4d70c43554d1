import { usePart } from '../store/use.tsx';

/** How a loading position is called, for whoever made an entry there. */
export function usePositionName(): (id: string) => string {
  const loading = usePart('loading');
  return (id) => loading.find((position) => position.id === id)?.name ?? id;
}
