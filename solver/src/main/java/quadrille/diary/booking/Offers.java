package quadrille.diary.booking;

import java.time.LocalDate;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CostTerm;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.TimeLine;
import quadrille.diary.booking.problem.VisitCase;

/**
 * Weighted sums of several objectives, one optimum each (Zadeh 1963): a few good and truly
 * different ways to book a course. The first is the best when all terms are weighed; then come
 * those that are best under a purpose of their own, finish first where that is sooner, one
 * clinician throughout, the patient's preferences; then the best at other times. Two ways are truly
 * different if more than half of the visits that are sought lie in another half of a day or with
 * another clinician.
 */
public final class Offers {

  private static final long ELSEWHERE = 1_000_000_000L;

  private final CourseCase course;
  private final Occupancy taken;
  private final List<Offer> offers = new ArrayList<>();
  private final List<List<Slot>> made = new ArrayList<>();

  private Offers(CourseCase course, Occupancy taken) {
    this.course = course;
    this.taken = taken;
  }

  /**
   * What there is to offer where all visits of a course are booked and only what is said of them
   * changes.
   *
   * @throws IllegalArgumentException if the last visit does not stand in the diary
   */
  public static Offer standing(Diary diary, CourseRequest request) {
    LocalDate end =
        diary
            .standing(request.caseName(), request.lastNumber())
            .orElseThrow(() -> new IllegalArgumentException("The last visit is not booked."))
            .start()
            .atZone(diary.zone())
            .toLocalDate();
    return new Offer(
        List.of(),
        List.of(Merit.KEEPS_TIMES),
        end.plusWeeks(request.reevaluateFromWeeks()),
        end.plusWeeks(request.reevaluateToWeeks()),
        Map.of());
  }

  /**
   * Up to so many offers for what a course still lacks in a diary; none if there is no legal way.
   *
   * @param first day on which something may be booked
   * @param last such day
   * @param most offers wanted, 1 or more
   * @throws IllegalArgumentException if the course lacks nothing
   */
  public static List<Offer> of(
      Diary diary,
      CourseRequest request,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      int most) {
    if (diary.unbooked(request).isEmpty()) {
      throw new IllegalArgumentException(
          "The course (" + request.caseName() + ") has all its visits booked.");
    }
    BookingCase booking = new BookingCase(diary, weights, first, last);
    Offers offers = new Offers(CourseCase.of(0, booking, request), Occupancy.of(booking));
    offers.make(most);
    return List.copyOf(offers.offers);
  }

  private void make(int most) {
    BookingWeights weights = course.weights();
    CourseCase early = course.under(weights.finishFirst());
    Optional<CourseSearch.Found> earliest = seek(early);
    if (earliest.isEmpty()) {
      return;
    }
    int firstEnd = end(earliest.get().slots());
    List<Slot> best = seek(course).orElseThrow().slots();
    add(best, firstEnd, true);
    List<CourseCase> purposes = new ArrayList<>();
    if (firstEnd < end(best)) {
      purposes.add(early);
    }
    purposes.add(course.under(weights.clinicianFirst()));
    if (course.prefersTimes() || course.prefersClinician()) {
      purposes.add(course.under(weights.wishesFirst()));
    }
    for (CourseCase purpose : purposes) {
      if (made.size() < most) {
        seek(purpose)
            .map(CourseSearch.Found::slots)
            .filter(
                slots ->
                    purpose == early || made.stream().allMatch(other -> different(slots, other)))
            .ifPresent(slots -> add(slots, firstEnd, false));
      }
    }
    while (made.size() < most) {
      int before = made.size();
      CourseSearch.best(course, taken, this::repeated)
          .map(CourseSearch.Found::slots)
          .filter(slots -> made.stream().allMatch(other -> different(slots, other)))
          .ifPresent(slots -> add(slots, firstEnd, false));
      if (made.size() == before) {
        return;
      }
    }
  }

  private Optional<CourseSearch.Found> seek(CourseCase purpose) {
    return CourseSearch.best(purpose, taken, CourseSearch.Price.NONE);
  }

  private long repeated(VisitCase visit, int day, int start, int clinician) {
    for (List<Slot> slots : made) {
      if (sameHalfDay(slots.get(visit.place()).start(), start)) {
        return ELSEWHERE;
      }
    }
    return 0;
  }

  private void add(List<Slot> slots, int firstEnd, boolean best) {
    Map<CostTerm, Long> terms = terms(slots);
    List<Merit> because = new ArrayList<>();
    if (end(slots) == firstEnd) {
      because.add(Merit.FINISHES_FIRST);
    }
    if (slots.size() > 1 && slots.stream().map(Slot::clinician).distinct().count() == 1) {
      because.add(Merit.SAME_CLINICIAN);
    }
    if ((course.prefersTimes() || course.prefersClinician())
        && value(terms, CostTerm.OTHER_CLINICIAN) + value(terms, CostTerm.OTHER_TIME) == 0) {
      because.add(Merit.AS_PREFERRED);
    }
    if (best) {
      because.add(Merit.BEST_BALANCE);
    }
    if (because.isEmpty()) {
      because.add(Merit.OTHER_TIMES);
    }
    made.add(slots);
    offers.add(offer(slots, because, terms));
  }

  private Offer offer(List<Slot> slots, List<Merit> because, Map<CostTerm, Long> terms) {
    LocalDate end = course.booking().time().date(end(slots));
    return new Offer(
        sought(course, slots),
        because,
        end.plusWeeks(course.request().reevaluateFromWeeks()),
        end.plusWeeks(course.request().reevaluateToWeeks()),
        terms);
  }

  /** The visits of a course that were sought, where they were found. */
  static List<OfferedVisit> sought(CourseCase course, List<Slot> slots) {
    BookingCase booking = course.booking();
    List<OfferedVisit> visits = new ArrayList<>();
    for (VisitCase visit : course.visits()) {
      if (visit.fixed() == null) {
        Slot slot = slots.get(visit.place());
        visits.add(
            new OfferedVisit(
                course.request().caseName(),
                visit.request().number(),
                booking.time().instant(slot.start()),
                visit.minutes(),
                booking.diary().clinicians().get(slot.clinician()).id(),
                booking.diary().chairs().get(slot.chair()).id(),
                booking.calls(slot)));
      }
    }
    return visits;
  }

  private boolean different(List<Slot> one, List<Slot> other) {
    int sought = 0;
    int same = 0;
    for (VisitCase visit : course.visits()) {
      if (visit.fixed() == null) {
        Slot a = one.get(visit.place());
        Slot b = other.get(visit.place());
        sought++;
        same += a.clinician() == b.clinician() && sameHalfDay(a.start(), b.start()) ? 1 : 0;
      }
    }
    return 2 * same < sought;
  }

  private boolean sameHalfDay(int one, int other) {
    TimeLine time = course.booking().time();
    return time.day(one) == time.day(other) && morning(one) == morning(other);
  }

  private boolean morning(int start) {
    return course
        .booking()
        .time()
        .instant(start)
        .atZone(course.booking().diary().zone())
        .toLocalTime()
        .isBefore(LocalTime.NOON);
  }

  private int end(List<Slot> slots) {
    return course.booking().time().day(slots.get(slots.size() - 1).start());
  }

  private Map<CostTerm, Long> terms(List<Slot> slots) {
    return BookingCost.of(course, slots, taken);
  }

  private static long value(Map<CostTerm, Long> terms, CostTerm term) {
    return terms.getOrDefault(term, 0L);
  }
}
