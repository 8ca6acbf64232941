package quadrille.plan.anaesthesia;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Weighted set cover over at most 64 elements, solved exactly. Of all covers of least weight it
 * finds the one whose sorted candidate numbers come first in lexicographic order, so the answer is
 * the same every time.
 */
final class CheapestCover {

  private final long[] masks;
  private final long[] weights;

  /**
   * @param masks what each candidate covers
   * @param weights above 0, one a candidate; all of them together fit a long
   */
  CheapestCover(long[] masks, long[] weights) {
    this.masks = masks.clone();
    this.weights = weights.clone();
  }

  /** The part of the elements that some candidate covers. */
  long coverable(long elements) {
    long all = 0;
    for (long mask : masks) {
      all |= mask;
    }
    return elements & all;
  }

  /**
   * The numbers of the cheapest candidates that together cover the elements, ascending.
   *
   * @param elements each must be coverable
   */
  int[] solve(long elements) {
    int[] chosen = new int[0];
    long rest = elements;
    while (rest != 0) {
      long component = component(rest);
      chosen = merged(chosen, new Search(component).solve());
      rest &= ~component;
    }
    Arrays.sort(chosen);
    return chosen;
  }

  /** The elements that hang together with the lowest one through shared candidates. */
  private long component(long elements) {
    long component = Long.lowestOneBit(elements);
    boolean grown = true;
    while (grown) {
      long before = component;
      for (long mask : masks) {
        if ((mask & component) != 0) {
          component |= mask & elements;
        }
      }
      grown = component != before;
    }
    return component;
  }

  private static int[] merged(int[] some, int[] more) {
    int[] all = Arrays.copyOf(some, some.length + more.length);
    System.arraycopy(more, 0, all, some.length, more.length);
    return all;
  }

  /** Branch and bound on one component. */
  private final class Search {

    private final long elements;
    private final int[] candidates;
    private final boolean[] barred;
    private final int[] stack;
    private int[] best = new int[0];
    private long bestWeight = Long.MAX_VALUE;

    Search(long component) {
      List<Integer> kept = new ArrayList<>();
      for (int candidate = 0; candidate < masks.length; candidate++) {
        if ((masks[candidate] & component) != 0) {
          kept.add(candidate);
        }
      }
      long needed = component;
      boolean shrunk = true;
      while (shrunk) {
        int size = kept.size();
        long before = needed;
        kept = undominated(kept, needed);
        needed = hardest(kept, needed);
        shrunk = kept.size() != size || needed != before;
      }
      elements = needed;
      candidates = kept.stream().mapToInt(Integer::intValue).toArray();
      barred = new boolean[candidates.length];
      stack = new int[candidates.length];
    }

    int[] solve() {
      extend(elements, 0, 0);
      return best;
    }

    /**
     * Drops a candidate that another one replaces at no more weight. On equal weight only the
     * earlier one may replace the later, which keeps the first of equal covers.
     */
    private List<Integer> undominated(List<Integer> some, long needed) {
      List<Integer> kept = new ArrayList<>(some);
      for (Integer candidate : some) {
        long mask = masks[candidate] & needed;
        boolean dominated = mask == 0;
        for (Integer other : kept) {
          dominated |=
              !other.equals(candidate)
                  && (mask & ~masks[other]) == 0
                  && (weights[other] < weights[candidate]
                      || (weights[other] == weights[candidate] && other < candidate));
        }
        if (dominated) {
          kept.remove(candidate);
        }
      }
      return kept;
    }

    /** Drops an element that is covered whenever another one is. */
    private long hardest(List<Integer> some, long needed) {
      long kept = needed;
      for (long rest = needed; rest != 0; rest &= rest - 1) {
        long element = Long.lowestOneBit(rest);
        long always = kept & ~element;
        for (Integer candidate : some) {
          if ((masks[candidate] & element) == 0) {
            always &= ~masks[candidate];
          }
        }
        // What is left is covered by candidates of this element alone, so it is the harder one.
        if (always != 0) {
          kept &= ~element;
        }
      }
      return kept;
    }

    private void extend(long uncovered, long weight, int depth) {
      if (uncovered == 0) {
        offer(weight, depth);
        return;
      }
      if (weight + bound(uncovered) > bestWeight) {
        return;
      }
      long element = fewestChoices(uncovered);
      int from = depth;
      int[] barredHere = new int[candidates.length];
      int count = 0;
      for (int i = 0; i < candidates.length; i++) {
        if (!barred[i] && (masks[candidates[i]] & element) != 0) {
          stack[from] = candidates[i];
          barred[i] = true;
          barredHere[count++] = i;
          extend(uncovered & ~masks[candidates[i]], weight + weights[candidates[i]], depth + 1);
        }
      }
      for (int i = 0; i < count; i++) {
        barred[barredHere[i]] = false;
      }
    }

    private void offer(long weight, int depth) {
      if (weight > bestWeight) {
        return;
      }
      int[] found = Arrays.copyOf(stack, depth);
      Arrays.sort(found);
      if (weight < bestWeight || Arrays.compare(found, best) < 0) {
        bestWeight = weight;
        best = found;
      }
    }

    /** Each element costs at least its share of the candidate that shares its weight out best. */
    private long bound(long uncovered) {
      long bound = 0;
      for (long rest = uncovered; rest != 0; rest &= rest - 1) {
        long element = Long.lowestOneBit(rest);
        long least = Long.MAX_VALUE;
        for (int i = 0; i < candidates.length; i++) {
          long mask = masks[candidates[i]];
          if (!barred[i] && (mask & element) != 0) {
            least = Math.min(least, weights[candidates[i]] / Long.bitCount(mask & uncovered));
          }
        }
        if (least == Long.MAX_VALUE) {
          return Long.MAX_VALUE / 2;
        }
        bound += least;
      }
      return bound;
    }

    private long fewestChoices(long uncovered) {
      long fewest = 0;
      int least = Integer.MAX_VALUE;
      for (long rest = uncovered; rest != 0; rest &= rest - 1) {
        long element = Long.lowestOneBit(rest);
        int choices = 0;
        for (int i = 0; i < candidates.length; i++) {
          if (!barred[i] && (masks[candidates[i]] & element) != 0) {
            choices++;
          }
        }
        if (choices < least) {
          least = choices;
          fewest = element;
        }
      }
      return fewest;
    }
  }
}
