package quadrille.diary.desk;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.Taking;
import quadrille.plan.course.Course;

/**
 * A new plan of a course that the diary knows already: what took place stays, and so does every
 * booking that still holds its visit.
 *
 * @param request what the course asks for now, with the visits before the new plan's first
 * @param calledOff bookings that hold no visit of the new plan any more
 * @param restated bookings that stay where they are, but are promised now, or held only
 */
public record CarriedOn(CourseRequest request, List<CalledOff> calledOff, List<Restated> restated) {

  public CarriedOn {
    calledOff = List.copyOf(calledOff);
    restated = List.copyOf(restated);
  }

  /** A booking that is called off. */
  public record CalledOff(Booking booking, Mismatch because) {}

  /**
   * A booking that has been held until now since its plan was provisional and is promised, or the
   * other way round.
   *
   * @param booking as it was
   * @param now held or promised
   */
  public record Restated(Booking booking, BookingStatus now) {}

  /** Why a booking does not hold its visit any more. */
  public sealed interface Mismatch {}

  /** The plan has no such visit any more. */
  public record NoSuchVisit() implements Mismatch {}

  /**
   * The visit has become longer.
   *
   * @param minutes booked
   * @param needed minutes
   */
  public record TooShort(int minutes, int needed) implements Mismatch {}

  /** The visit has injections now. */
  public record NeedsInjector() implements Mismatch {}

  /** The needles come at other times than those for which another comes to inject. */
  public record OtherNeedles() implements Mismatch {}

  /**
   * The visit uses another set now.
   *
   * @param set its name
   */
  public record LacksSet(String set) implements Mismatch {}

  /**
   * A visit of a plan's number that took place and was another one: other minutes, other needs or
   * questions than the diary asked for. A plan that carries a course on begins after what took
   * place, or still has it as it was.
   *
   * @param asked what the plan asks for by itself
   */
  static Optional<Booking> another(Diary diary, CourseRequest asked) {
    CourseRequest known = diary.course(asked.caseName()).orElse(null);
    return known == null
        ? Optional.empty()
        : diary.bookings().stream()
            .filter(one -> one.status() == BookingStatus.DONE)
            .filter(one -> one.caseName().equals(asked.caseName()))
            .filter(
                one -> {
                  VisitRequest was = known.visit(one.visit()).orElse(null);
                  VisitRequest now = asked.visit(one.visit()).orElse(null);
                  return was != null
                      && now != null
                      && (was.minutes() != now.minutes()
                          || !was.needs().equals(now.needs())
                          || !was.stopQuestions().isEmpty()
                              && !was.stopQuestions().equals(now.stopQuestions()));
                })
            .findFirst();
  }

  /**
   * Holds a plan against the diary.
   *
   * @param plan the course's plan now
   * @param asked what this plan asks for by itself
   */
  public static CarriedOn of(Diary diary, Course plan, CourseRequest asked) {
    Optional<CourseRequest> known = diary.course(asked.caseName());
    int first = asked.visits().get(0).number();
    List<VisitRequest> visits = new ArrayList<>();
    for (VisitRequest old : known.map(CourseRequest::visits).orElse(List.of())) {
      if (old.number() < first && diary.standing(asked.caseName(), old.number()).isPresent()) {
        visits.add(old);
      }
    }
    boolean carriesOn = !visits.isEmpty();
    List<CourseRequest.Deadline> deadlines = deadlines(known, asked, first);
    int gap = plan.gapMinDays();
    for (CourseRequest.Deadline deadline : deadlines) {
      gap = deadline.to() == first ? Math.min(gap, deadline.days()) : gap;
    }
    int least = Math.max(gap, plan.gapLeastDays());
    for (VisitRequest visit : asked.visits()) {
      visits.add(
          carriesOn && visit.number() == first
              ? visit.withGapMinDays(least).withGapMaxDays(plan.gapMaxDays())
              : visit);
    }
    CourseRequest request = asked.withVisits(visits).withDeadlines(deadlines);
    boolean wasProvisional = known.map(CourseRequest::provisional).orElse(false);
    List<CalledOff> calledOff = new ArrayList<>();
    List<Restated> restated = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      boolean open =
          booking.status() == BookingStatus.HELD || booking.status() == BookingStatus.PROMISED;
      if (open && booking.caseName().equals(asked.caseName())) {
        Optional<Mismatch> why = because(booking, request.visit(booking.visit()));
        BookingStatus now =
            wasProvisional || request.provisional() ? Taking.status(request) : booking.status();
        if (why.isPresent()) {
          calledOff.add(new CalledOff(booking, why.get()));
        } else if (now != booking.status()) {
          restated.add(new Restated(booking, now));
        }
      }
    }
    return new CarriedOn(request, calledOff, restated);
  }

  /** Those of the new plan, and those that count from a visit that is done or booked before it. */
  private static List<CourseRequest.Deadline> deadlines(
      Optional<CourseRequest> known, CourseRequest asked, int first) {
    List<CourseRequest.Deadline> deadlines = new ArrayList<>();
    for (CourseRequest.Deadline one : known.map(CourseRequest::deadlines).orElse(List.of())) {
      if (one.from() < first && one.to() >= first && asked.visit(one.to()).isPresent()) {
        deadlines.add(one);
      }
    }
    deadlines.addAll(asked.deadlines());
    return deadlines;
  }

  private static Optional<Mismatch> because(Booking booking, Optional<VisitRequest> visit) {
    if (visit.isEmpty()) {
      return Optional.of(new NoSuchVisit());
    }
    VisitRequest now = visit.get();
    if (booking.minutes() < now.minutes()) {
      return Optional.of(new TooShort(booking.minutes(), now.minutes()));
    }
    if (!booking.needs().containsAll(now.needs())) {
      return Optional.of(new NeedsInjector());
    }
    if (now.injections()
        && !booking.injectors().isEmpty()
        && (now.needles().isEmpty()
            || !now.needles().stream().allMatch(one -> met(booking, one)))) {
      return Optional.of(new OtherNeedles());
    }
    for (String set : new TreeSet<>(now.sets())) {
      if (Collections.frequency(booking.sets(), set) < Collections.frequency(now.sets(), set)) {
        return Optional.of(new LacksSet(set));
      }
    }
    return Optional.empty();
  }

  private static boolean met(Booking booking, NeedleTime needle) {
    return booking.injectors().stream()
        .anyMatch(call -> call.from() <= needle.from() && call.to() >= needle.to());
  }

  /** The diary without the bookings that are called off, the others as they are now. */
  public Diary over(Diary diary) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    for (CalledOff one : calledOff) {
      bookings.set(bookings.indexOf(one.booking()), one.booking().with(BookingStatus.CANCELLED));
    }
    for (Restated one : restated) {
      bookings.set(bookings.indexOf(one.booking()), one.booking().with(one.now()));
    }
    return diary.withBookings(bookings);
  }
}
