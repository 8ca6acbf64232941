package quadrille.diary.booking;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;

/** The exact search for one course beside CP-SAT and beside every way there is. */
final class CourseSearchTest {

  private static final LocalDate FIRST = RandomDiary.FIRST;

  /** Every booking of a course that is legal by the audit; the search must meet the cheapest. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void costsWhatCpSatProvesToBeLeast(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(27);
    Diary diary = random.diary(3, 2, 15, 28, 0.5);
    // Somebody else's bookings stand in the way as well.
    for (int i = 0; i < 6; i++) {
      CourseRequest other = random.course("O-" + i, 2, diary);
      List<Offer> offers = Offers.of(diary, other, BookingWeights.defaults(), FIRST, last, 1);
      if (!offers.isEmpty()) {
        diary = Taking.booked(Taking.asking(diary, other), offers.get(0).visits());
      }
    }
    assertTrue(diary.bookings().size() >= 4, "bookings: " + diary.bookings().size());
    assertEquals(List.of(), DiaryAudit.read(diary));

    CourseRequest course = random.course("P-1", 3, diary);
    OptionalLong expected =
        new Reference(diary, course, BookingWeights.defaults()).optimum(FIRST, last);
    Optional<CourseSearch.Found> found = best(diary, course, last);
    assertEquals(expected.isPresent(), found.isPresent());
    if (found.isPresent()) {
      assertEquals(expected.getAsLong(), found.get().cost());
    }
  }

  /**
   * Deadlines to the next visit and over several, among them one that only days that are dearer
   * keep; against CP-SAT, which has them as differences of days.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void keepsDeadlinesAtTheLeastThatCpSatFinds(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(34);
    Diary diary = random.diary(2, 2, 30, 35, 0.6);
    CourseRequest course = random.course("P-1", 4, diary, FIRST, 5, 12);
    List<CourseRequest.Deadline> deadlines =
        List.of(
            new CourseRequest.Deadline(1, 2, 6),
            new CourseRequest.Deadline(1, 3, 12),
            new CourseRequest.Deadline(2, 4, 11));
    int dearer = 0;
    for (int least = 0; least < deadlines.size(); least++) {
      CourseRequest asked = course.withDeadlines(deadlines.subList(least, deadlines.size()));
      OptionalLong expected =
          new Reference(diary, asked, BookingWeights.defaults()).optimum(FIRST, last);
      Optional<CourseSearch.Found> found = best(diary, asked, last);
      assertEquals(expected.isPresent(), found.isPresent());
      if (found.isPresent()) {
        assertEquals(expected.getAsLong(), found.get().cost());
        long free = best(diary, course, last).orElseThrow().cost();
        dearer += free < found.get().cost() ? 1 : 0;
      }
    }
    DEARER.addAndGet(dearer);
  }

  /**
   * Gaps that a clinician lets grow, at a price, beside deadlines that they do not go over; against
   * CP-SAT, which has the days over the plan's longest gap as variables.
   */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void letsGapsGrowAtTheLeastThatCpSatFinds(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(34);
    Diary diary = random.diary(2, 2, 30, 35, 0.75);
    CourseRequest course =
        random
            .course("P-1", 4, diary, FIRST, 3, 4)
            .withDeadlines(List.of(new CourseRequest.Deadline(1, 3, 14)));
    for (int days : List.of(2, 6)) {
      CourseRequest longer = course.withLongerGaps(new LongerGaps(days, "Ada"));
      OptionalLong expected =
          new Reference(diary, longer, BookingWeights.defaults()).optimum(FIRST, last);
      Optional<CourseSearch.Found> found = best(diary, longer, last);
      assertEquals(expected.isPresent(), found.isPresent());
      if (found.isPresent()) {
        assertEquals(expected.getAsLong(), found.get().cost());
        BookingCase booking = new BookingCase(diary, BookingWeights.defaults(), FIRST, last);
        long terms =
            BookingCost.of(
                    CourseCase.of(0, booking, longer), found.get().slots(), Occupancy.of(booking))
                .get(CostTerm.LONGER_GAPS);
        GROWN.addAndGet(terms > 0 ? 1 : 0);
      }
    }
  }

  private static final AtomicInteger GROWN = new AtomicInteger();

  @AfterAll
  static void someGapsGrew() {
    assertTrue(GROWN.get() > 0, "no gap ever grew");
  }

  private static final AtomicInteger DEARER = new AtomicInteger();

  @AfterAll
  static void someDeadlinesCostSomething() {
    assertTrue(DEARER.get() > 0, "no deadline ever mattered");
  }

  @Test
  void aDeadlineThatNoDayKeepsLeavesNoWay() {
    RandomDiary random = new RandomDiary(1);
    Diary diary = random.diary(3, 2, 15, 28, 0.1);
    CourseRequest course =
        random.course("P-1", 3, diary).withDeadlines(List.of(new CourseRequest.Deadline(1, 3, 13)));
    LocalDate last = FIRST.plusDays(27);
    assertTrue(best(diary, course, last).isEmpty());
    assertEquals(
        List.of(new Remedy.LongerDeadlines(1)),
        BookingRemedies.of(diary, course, BookingWeights.defaults(), FIRST, last).stream()
            .filter(Remedy.LongerDeadlines.class::isInstance)
            .toList());
  }

  @Test
  void mostOfTheseCasesHaveAWay() {
    int ways = 0;
    for (long seed = 1; seed <= 5; seed++) {
      RandomDiary random = new RandomDiary(seed);
      Diary diary = random.diary(3, 2, 15, 28, 0.5);
      ways += best(diary, random.course("P-1", 3, diary), FIRST.plusDays(27)).isPresent() ? 1 : 0;
    }
    assertTrue(ways >= 3, "ways: " + ways);
  }

  /** Wherever the look begins, it goes on as long as something cheaper may come. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void aGuessOfTheLastDayChangesNothing(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(34);
    Diary diary = random.diary(3, 2, 15, 35, 0.5);
    BookingCase booking = new BookingCase(diary, BookingWeights.defaults(), FIRST, last);
    CourseRequest asked = random.course("P-1", 3, diary);
    CourseCase course = CourseCase.of(0, booking, asked);
    Optional<CourseSearch.Found> found = best(diary, asked, last);
    for (int likely = -1; likely < 40; likely++) {
      assertEquals(
          found.map(CourseSearch.Found::cost),
          CourseSearch.best(course, Occupancy.of(booking), CourseSearch.Price.NONE, likely)
              .map(CourseSearch.Found::cost),
          "guessed: day " + likely);
    }
  }

  /** Two visits that may lie on one day get into each other's way; every pair is tried. */
  @ParameterizedTest
  @ValueSource(longs = {11, 12, 13})
  void visitsOnOneDayCostWhatTheCheapestOfAllPairsCosts(long seed) {
    RandomDiary random = new RandomDiary(seed);
    LocalDate last = FIRST.plusDays(2);
    Diary diary = random.diary(2, 2, 30, 3, 0.3);
    CourseRequest course = random.course("P-1", 2, diary, FIRST, 0, 1);
    BookingCase booking = new BookingCase(diary, BookingWeights.defaults(), FIRST, last);
    CourseCase ready = CourseCase.of(0, booking, course);
    Optional<Long> least = Optional.empty();
    Reference reference = new Reference(diary, course, BookingWeights.defaults());
    List<Reference.Place> one = reference.places(0, FIRST, last);
    List<Reference.Place> two = reference.places(1, FIRST, last);
    for (Reference.Place a : one) {
      for (Reference.Place b : two) {
        List<OfferedVisit> pair = List.of(visit(course, a), visit(course, b));
        if (DiaryAudit.read(Taking.booked(Taking.asking(diary, course), pair)).isEmpty()) {
          List<Slot> slots = new ArrayList<>();
          for (OfferedVisit visit : pair) {
            slots.add(
                new Slot(
                    booking.time().minute(visit.start()),
                    booking.clinician(visit.clinician()),
                    booking.chair(visit.chair())));
          }
          long cost =
              BookingCost.of(ready, slots, Occupancy.of(booking)).values().stream()
                  .mapToLong(Long::longValue)
                  .sum();
          if (least.isEmpty() || cost < least.get()) {
            least = Optional.of(cost);
          }
        }
      }
    }
    assertEquals(least, best(diary, course, last).map(CourseSearch.Found::cost));
  }

  private static OfferedVisit visit(CourseRequest course, Reference.Place place) {
    return new OfferedVisit(
        course.caseName(),
        place.visit() + 1,
        place.day().atTime(place.start()).atZone(RandomDiary.ZONE).toInstant(),
        course.visits().get(place.visit()).minutes(),
        "c" + (place.clinician() + 1),
        place.chair());
  }

  private static Optional<CourseSearch.Found> best(
      Diary diary, CourseRequest course, LocalDate last) {
    BookingCase booking = new BookingCase(diary, BookingWeights.defaults(), FIRST, last);
    return CourseSearch.best(
        CourseCase.of(0, booking, course), Occupancy.of(booking), CourseSearch.Price.NONE);
  }

  @Test
  void leavesWhatIsTakenAsItWas() {
    RandomDiary random = new RandomDiary(12);
    Diary diary = random.diary(2, 2, 30, 3, 0.3);
    CourseRequest course = random.course("P-1", 2, diary, FIRST, 0, 1);
    BookingCase booking =
        new BookingCase(diary, BookingWeights.defaults(), FIRST, FIRST.plusDays(2));
    Occupancy taken = Occupancy.of(booking);
    CourseCase ready = CourseCase.of(0, booking, course);
    Optional<CourseSearch.Found> once = CourseSearch.best(ready, taken, CourseSearch.Price.NONE);
    Optional<CourseSearch.Found> twice = CourseSearch.best(ready, taken, CourseSearch.Price.NONE);
    assertTrue(once.isPresent());
    assertEquals(once, twice);
  }
}
