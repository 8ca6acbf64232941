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
import quadrille.diary.book.VisitRequest;
import quadrille.plan.course.Course;

/**
 * A new plan of a course that the diary knows already: what took place stays, and so does every
 * booking that still holds its visit.
 *
 * @param request what the course asks for now, with the visits before the new plan's first
 * @param calledOff bookings that hold no visit of the new plan any more
 */
public record CarriedOn(CourseRequest request, List<CalledOff> calledOff) {

  public CarriedOn {
    calledOff = List.copyOf(calledOff);
  }

  /** A booking that is called off. */
  public record CalledOff(Booking booking, Mismatch because) {}

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

  /**
   * The visit uses another set now.
   *
   * @param set its name
   */
  public record LacksSet(String set) implements Mismatch {}

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
    for (VisitRequest visit : asked.visits()) {
      visits.add(
          carriesOn && visit.number() == first
              ? new VisitRequest(
                  visit.number(),
                  visit.minutes(),
                  visit.needs(),
                  visit.sets(),
                  plan.gapMinDays(),
                  plan.gapMaxDays())
              : visit);
    }
    CourseRequest request = asked.withVisits(visits);
    List<CalledOff> calledOff = new ArrayList<>();
    for (Booking booking : diary.bookings()) {
      boolean open =
          booking.status() == BookingStatus.HELD || booking.status() == BookingStatus.PROMISED;
      if (open && booking.caseName().equals(asked.caseName())) {
        because(booking, request.visit(booking.visit()))
            .ifPresent(why -> calledOff.add(new CalledOff(booking, why)));
      }
    }
    return new CarriedOn(request, calledOff);
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
    for (String set : new TreeSet<>(now.sets())) {
      if (Collections.frequency(booking.sets(), set) < Collections.frequency(now.sets(), set)) {
        return Optional.of(new LacksSet(set));
      }
    }
    return Optional.empty();
  }

  /** The diary without the bookings that are called off. */
  public Diary over(Diary diary) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    for (CalledOff one : calledOff) {
      bookings.set(bookings.indexOf(one.booking()), one.booking().with(BookingStatus.CANCELLED));
    }
    return diary.withBookings(bookings);
  }
}
