package quadrille.diary.booking;

import java.util.List;
import java.util.function.IntConsumer;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.Commitment;
import quadrille.diary.booking.problem.Slot;

/** Occupancy kept in step with the commitments that the solver moves. */
final class Scratch {

  private final Occupancy taken;
  private final @Nullable Slot[] known;
  private IntConsumer heard = tried -> {};
  private int tried;

  /**
   * @param taken by all that is not placed by the solver
   */
  Scratch(Occupancy taken, int visits) {
    this.taken = taken;
    this.known = new Slot[visits];
  }

  /** From now on, who is told how many moves have been tried. */
  void heard(IntConsumer listener) {
    heard = listener;
  }

  /** One more move is tried. */
  void moved() {
    tried++;
    heard.accept(tried);
  }

  /** How many moves have been tried. */
  int tried() {
    return tried;
  }

  /** What is taken while the visits stand as they do now. */
  Occupancy of(List<? extends Commitment> visits) {
    for (int i = 0; i < known.length; i++) {
      Commitment visit = visits.get(i);
      Slot before = known[i];
      if (before != null && !visit.pinned() && !before.equals(visit.slot())) {
        taken.remove(before, visit.visit().minutes(), visit.visit().uses());
        known[i] = null;
      }
    }
    for (int i = 0; i < known.length; i++) {
      Commitment visit = visits.get(i);
      Slot now = visit.slot();
      if (now != null && !visit.pinned() && known[i] == null) {
        taken.place(now, visit.visit().minutes(), visit.visit().uses());
        known[i] = now;
      }
    }
    return taken;
  }
}
