package quadrille.diary.booking;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.VisitCase;

/**
 * A practice of four clinicians, and patients who ask for three visits each.
 *
 * @param last day on which something may be booked
 */
record BatchCase(Diary diary, List<CourseRequest> courses, LocalDate last) {

  static final LocalDate FIRST = RandomDiary.FIRST;

  /** More do not fit into eight weeks; they are given two years. */
  private static final int PATIENTS_OF_EIGHT_WEEKS = 200;

  private static final int TWO_YEARS = 730;

  static final BookingWeights WEIGHTS = BookingWeights.defaults();

  /** They ask over two weeks before the first day that can be booked. */
  static BatchCase of(long seed, int patients) {
    return of(seed, patients, patients <= PATIENTS_OF_EIGHT_WEEKS ? 56 : TWO_YEARS, 0);
  }

  /**
   * They ask from two weeks before the first day that can be booked to a quarter before the last.
   */
  static BatchCase arriving(long seed, int patients) {
    return of(seed, patients, TWO_YEARS, TWO_YEARS - 91);
  }

  /**
   * @param until how many days after the first that can be booked the last of them asks
   */
  private static BatchCase of(long seed, int patients, int days, int until) {
    RandomDiary random = new RandomDiary(seed);
    Diary diary = random.diary(4, 4, 10, days, 0.04, 5);
    List<CourseRequest> courses = new ArrayList<>();
    for (int i = 0; i < patients; i++) {
      LocalDate asked = FIRST.plusDays(until).minusDays((14L + until) * (patients - i) / patients);
      courses.add(random.course("P-" + (i + 1), 3, diary, asked, 7, 14));
    }
    return new BatchCase(diary, courses, FIRST.plusDays(days - 1L));
  }

  /** The diary with bookings. */
  Diary after(List<OfferedVisit> visits) {
    Diary after = diary;
    for (CourseRequest course : courses) {
      after = Taking.asking(after, course);
    }
    return Taking.booked(after, visits);
  }

  /** Every way's terms by the same reckoning, course after course. */
  Map<CostTerm, Long> terms(BatchBooker.Booked booked) {
    BookingCase booking = new BookingCase(diary, WEIGHTS, FIRST, last);
    Map<String, List<OfferedVisit>> byCourse =
        booked.visits().stream().collect(Collectors.groupingBy(OfferedVisit::caseName));
    Occupancy taken = Occupancy.of(booking);
    Map<CostTerm, Long> sum = new TreeMap<>();
    for (CourseRequest request : courses) {
      CourseCase course = CourseCase.of(0, booking, request);
      List<Slot> slots = new ArrayList<>();
      for (OfferedVisit visit : byCourse.getOrDefault(request.caseName(), List.of())) {
        slots.add(
            new Slot(
                booking.time().minute(visit.start()),
                booking.clinician(visit.clinician()),
                booking.chair(visit.chair())));
      }
      if (!slots.isEmpty()) {
        BookingCost.of(course, slots, taken)
            .forEach((term, cost) -> sum.merge(term, cost, Long::sum));
        for (VisitCase visit : course.visits()) {
          taken.place(slots.get(visit.place()), visit.minutes(), visit.uses());
        }
      }
    }
    return sum;
  }
}
