package quadrille.diary.booking;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.UnaryOperator;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Chair;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.CourseRequest.Deadline;
import quadrille.diary.book.Diary;
import quadrille.diary.book.LongerGaps;
import quadrille.diary.book.SterileStock;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.problem.BookingWeights;

/**
 * What stands in the way of a course that finds no place, and what would help: each rule is eased
 * by itself, as little as helps.
 */
public final class BookingRemedies {

  /** How long after the last day a course is looked for a place: half a year; an assumption. */
  public static final int LATER_DAYS = 182;

  private static final int OTHER_GAP_DAYS = LongerGaps.MOST_DAYS;

  private final Diary diary;
  private final CourseRequest request;
  private final BookingWeights weights;
  private final LocalDate first;
  private final LocalDate last;
  private final List<Remedy> remedies = new ArrayList<>();

  private BookingRemedies(
      Diary diary, CourseRequest request, BookingWeights weights, LocalDate first, LocalDate last) {
    this.diary = diary;
    this.request = request;
    this.weights = weights;
    this.first = first;
    this.last = last;
  }

  /**
   * Single changes that help a course for which there is no legal way between two days.
   *
   * @param diary with the busy times of its calendars until {@link #LATER_DAYS} after the last day
   * @return none if no single change helps
   */
  public static List<Remedy> of(
      Diary diary, CourseRequest request, BookingWeights weights, LocalDate first, LocalDate last) {
    BookingRemedies remedies = new BookingRemedies(diary, request, weights, first, last);
    remedies.later();
    remedies.gaps();
    remedies.deadlines();
    remedies.patient();
    remedies.capability();
    remedies.sets();
    remedies.chair();
    remedies.bookings();
    return List.copyOf(remedies.remedies);
  }

  private Optional<Offer> offer(Diary in, CourseRequest asking, LocalDate until) {
    List<Offer> offers = Offers.of(in, asking, weights, first, until, 1);
    return offers.isEmpty() ? Optional.empty() : Optional.of(offers.get(0));
  }

  private boolean helps(Diary in, CourseRequest asking) {
    return offer(in, asking, last).isPresent();
  }

  private void later() {
    offer(diary, request, last.plusDays(LATER_DAYS))
        .ifPresent(
            offer -> {
              OfferedVisit end = offer.visits().get(offer.visits().size() - 1);
              remedies.add(
                  new Remedy.LaterEnd(last, end.start().atZone(diary.zone()).toLocalDate()));
            });
  }

  private void gaps() {
    LongerGaps before = request.longerGaps();
    int had = before == null ? 0 : before.days();
    for (int days = had + 1; days <= OTHER_GAP_DAYS; days++) {
      if (helps(diary, request.withLongerGaps(new LongerGaps(days, "a clinician")))) {
        remedies.add(new Remedy.LongerGaps(days));
        break;
      }
    }
    int most = request.visits().stream().mapToInt(VisitRequest::gapMinDays).max().orElse(0);
    for (int days = 1; days <= most; days++) {
      int fewer = days;
      if (helps(
          diary, visits(visit -> visit.withGapMinDays(Math.max(0, visit.gapMinDays() - fewer))))) {
        remedies.add(new Remedy.ShorterGaps(days));
        break;
      }
    }
  }

  private void deadlines() {
    for (int days = 1; !request.deadlines().isEmpty() && days <= OTHER_GAP_DAYS; days++) {
      int more = days;
      if (helps(
          diary,
          request.withDeadlines(
              request.deadlines().stream()
                  .map(one -> new Deadline(one.from(), one.to(), one.days() + more))
                  .toList()))) {
        remedies.add(new Remedy.LongerDeadlines(days));
        return;
      }
    }
  }

  private CourseRequest visits(UnaryOperator<VisitRequest> change) {
    return request.withVisits(request.visits().stream().map(change).toList());
  }

  private void patient() {
    if (request.availability().any()) {
      return;
    }
    CourseRequest free = request.withAvailability(Availability.ANY);
    offer(diary, free, last)
        .ifPresent(
            offer ->
                remedies.add(
                    new Remedy.PatientComes(
                        offer.visits().stream().map(OfferedVisit::start).toList())));
  }

  private void capability() {
    boolean needed = request.visits().stream().anyMatch(visit -> !visit.needs().isEmpty());
    if (needed
        && helps(diary, visits(visit -> visit.withNeeds(List.of()).withNeedles(List.of())))) {
      remedies.add(new Remedy.AnotherInjector());
    }
  }

  private void sets() {
    SterileStock stock = diary.stock();
    for (SterileSet set : stock.sets()) {
      List<SterileSet> more = new ArrayList<>();
      for (SterileSet one : stock.sets()) {
        more.add(
            one.equals(set) ? new SterileSet(one.name(), one.count() + 1, one.everyVisit()) : one);
      }
      Diary richer =
          with(
              diary.chairs(),
              new SterileStock(stock.reprocessingMinutes(), more),
              diary.bookings());
      if (helps(richer, request)) {
        remedies.add(new Remedy.OneMoreSet(set.name()));
      }
    }
  }

  private void chair() {
    List<Chair> more = new ArrayList<>(diary.chairs());
    more.add(new Chair("\u0000", "one more", List.of()));
    if (helps(with(more, diary.stock(), diary.bookings()), request)) {
      remedies.add(new Remedy.OneMoreChair());
    }
  }

  private void bookings() {
    List<Booking> firm =
        diary.bookings().stream()
            .filter(
                booking ->
                    booking.status() != BookingStatus.HELD
                        || booking.caseName().equals(request.caseName()))
            .toList();
    if (helps(diary.withBookings(firm), request)) {
      remedies.add(new Remedy.MovingHeld());
      return;
    }
    List<Booking> own =
        diary.bookings().stream()
            .filter(booking -> booking.caseName().equals(request.caseName()))
            .toList();
    if (helps(diary.withBookings(own), request)) {
      remedies.add(new Remedy.MovingOthers());
    }
  }

  private Diary with(List<Chair> chairs, SterileStock stock, List<Booking> bookings) {
    return diary.withChairs(chairs).withStock(stock).withBookings(bookings);
  }
}
