package quadrille.diary.booking;

import ai.timefold.solver.core.impl.domain.valuerange.AbstractCountableValueRange;
import java.util.Iterator;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.Slot;

/**
 * Where visits can be put: at any minute with any clinician in any chair. Which of these are legal
 * is for the rules to say, and moves find legal ones by the exact search, so the range lists none
 * but a first: the solver would index each minute of two years before it begins. It takes ranges
 * that may hold nothing of its own kind only.
 */
final class AnySlot extends AbstractCountableValueRange<Slot> {

  private static final Slot LISTED = new Slot(0, 0, 0);

  private final BookingCase booking;

  AnySlot(BookingCase booking) {
    this.booking = booking;
  }

  /** What stands in the diary may have begun before the first minute. */
  @Override
  public boolean contains(@Nullable Slot slot) {
    return slot != null
        && slot.clinician() < booking.clinicians()
        && slot.chair() < booking.chairs();
  }

  @Override
  public long getSize() {
    return 1;
  }

  @Override
  public Slot get(long index) {
    return LISTED;
  }

  @Override
  public Iterator<Slot> createOriginalIterator() {
    return List.of(LISTED).iterator();
  }

  @Override
  public Iterator<Slot> createRandomIterator(Random random) {
    return Stream.generate(() -> LISTED).iterator();
  }
}
