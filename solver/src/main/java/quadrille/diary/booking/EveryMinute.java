package quadrille.diary.booking;

import ai.timefold.solver.core.impl.domain.valuerange.AbstractCountableValueRange;
import java.util.Iterator;
import java.util.Random;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.Slot;

/**
 * Where visits can be put: each minute with each clinician in each chair. Which of them are legal
 * is for the rules to say, and moves find legal ones by the exact search; so nothing is listed,
 * however many days there are.
 */
final class EveryMinute extends AbstractCountableValueRange<Slot> {

  private final int minutes;
  private final int clinicians;
  private final int chairs;

  EveryMinute(BookingCase booking) {
    minutes = booking.time().length();
    clinicians = booking.clinicians();
    chairs = booking.chairs();
  }

  @Override
  public long getSize() {
    return (long) minutes * clinicians * chairs;
  }

  @Override
  public Slot get(long index) {
    long seats = (long) clinicians * chairs;
    int seat = (int) (index % seats);
    return new Slot((int) (index / seats), seat / chairs, seat % chairs);
  }

  @Override
  public boolean isEmpty() {
    return getSize() == 0;
  }

  /** What stands in the diary may have begun before the first minute. */
  @Override
  public boolean contains(@Nullable Slot slot) {
    return slot != null
        && slot.start() < minutes
        && slot.clinician() < clinicians
        && slot.chair() < chairs;
  }

  @Override
  public Iterator<Slot> createOriginalIterator() {
    return LongStream.range(0, getSize()).mapToObj(this::get).iterator();
  }

  @Override
  public Iterator<Slot> createRandomIterator(Random random) {
    return LongStream.generate(() -> random.nextLong(getSize())).mapToObj(this::get).iterator();
  }
}
