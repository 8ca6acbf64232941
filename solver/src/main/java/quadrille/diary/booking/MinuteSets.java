package quadrille.diary.booking;

import java.util.BitSet;

/** Counts in sets of minutes. */
final class MinuteSets {

  private MinuteSets() {}

  /** How many minutes of a span are in a set. */
  static int within(BitSet minutes, int from, int to) {
    int next = minutes.nextSetBit(Math.max(0, from));
    return next < 0 || next >= to ? 0 : minutes.get(Math.max(0, from), to).cardinality();
  }
}
