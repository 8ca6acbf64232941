package quadrille.diary.booking;

import java.util.ArrayList;
import java.util.List;

/**
 * The ruin of a ruin-and-recreate move: how it takes courses out of the diary before it books them
 * again.
 *
 * @param courses how many, 1 or more
 * @param apart the others are taken from so far down the list of the nearest, 0 for the nearest
 * @param backwards whether they are booked again with the nearest first
 */
record Ruin(int courses, int apart, boolean backwards) {

  /** The usual ways; docs/booking.md compares some others. */
  static final List<Ruin> USUAL = upTo(5, 6, true);

  /**
   * All ways up to a size.
   *
   * @param courses most that are taken out at once, 1 or more
   * @param ways from so many places of the list of the nearest, 1 or more
   * @param backwards whether each is tried in both orders
   */
  static List<Ruin> upTo(int courses, int ways, boolean backwards) {
    List<Ruin> ruins = new ArrayList<>();
    for (int size = 1; size <= courses; size++) {
      for (int apart = 0; apart < (size == 1 ? 1 : ways); apart++) {
        ruins.add(new Ruin(size, apart, false));
        if (size > 1 && backwards) {
          ruins.add(new Ruin(size, apart, true));
        }
      }
    }
    return ruins;
  }
}
