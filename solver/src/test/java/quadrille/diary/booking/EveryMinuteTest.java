package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.HashSet;
import java.util.Iterator;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.Slot;

final class EveryMinuteTest {

  private final EveryMinute range =
      new EveryMinute(
          new BookingCase(
              new RandomDiary(1).diary(3, 2, 15, 1, 0),
              BookingWeights.defaults(),
              RandomDiary.FIRST,
              RandomDiary.FIRST));

  @Test
  void aDayHasEachMinuteWithEachClinicianInEachChairOnce() {
    Set<Slot> all = new HashSet<>();
    range.createOriginalIterator().forEachRemaining(all::add);
    assertEquals(24 * 60 * 3 * 2, all.size());
    assertEquals(all.size(), range.getSize());
    assertTrue(all.stream().allMatch(range::contains));
    assertTrue(all.contains(new Slot(0, 0, 0)) && all.contains(new Slot(24 * 60 - 1, 2, 1)));
    assertFalse(range.isEmpty());
  }

  @Test
  void whatTheDayHasNotIsNotInIt() {
    assertFalse(range.contains(null));
    assertFalse(range.contains(new Slot(24 * 60, 0, 0)));
    assertFalse(range.contains(new Slot(0, 3, 0)));
    assertFalse(range.contains(new Slot(0, 0, 2)));
  }

  @Test
  void chanceFindsDifferentOnesWithin() {
    Iterator<Slot> random = range.createRandomIterator(new Random(3));
    Set<Slot> found = new HashSet<>();
    for (int i = 0; i < 50; i++) {
      found.add(random.next());
    }
    assertTrue(found.size() > 40, found.size() + " of 50");
    assertTrue(found.stream().allMatch(range::contains));
  }
}
