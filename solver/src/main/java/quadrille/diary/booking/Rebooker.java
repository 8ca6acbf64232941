package quadrille.diary.booking;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.function.IntFunction;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.Availability;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.TimeOff;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.problem.BookingCase;
import quadrille.diary.booking.problem.BookingWeights;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.calendar.Interval;

/**
 * Minimal perturbation (El Sakkout and Wallace 2000), course by course: finds new places after
 * changes with the smallest disturbance. A course that is touched is booked again by the exact
 * search, in which leaving a place costs more than everything else together, and leaving one that
 * is promised a hundred times that. Where a course finds no place among the others, or only by
 * moving more of its own promised visits, one other course at a time may make room.
 */
public final class Rebooker {

  private static final long HELD = 1_000_000L;
  private static final long PROMISED = 100 * HELD;

  private final BookingWeights weights;
  private final LocalDate first;
  private final LocalDate last;
  private final Instant now;
  private final Diary before;
  private Diary diary;
  private final Map<String, Reason> because = new LinkedHashMap<>();
  private final List<Rebooking.Move> moves = new ArrayList<>();
  private final List<Rebooking.Lost> left = new ArrayList<>();

  private Rebooker(
      Diary diary, BookingWeights weights, LocalDate first, LocalDate last, Instant now) {
    this.now = now;
    this.before = diary;
    this.diary = diary;
    this.weights = weights;
    this.first = first;
    this.last = last;
  }

  /**
   * The diary after changes.
   *
   * @param diary with the busy times of its calendars
   * @param first day on which something may be booked
   * @param last such day
   * @throws IllegalArgumentException if a change names a booking or clinician that is not there
   */
  public static Rebooking of(
      Diary diary,
      List<DiaryChange> changes,
      BookingWeights weights,
      LocalDate first,
      LocalDate last) {
    return of(diary, changes, weights, first, last, Instant.MIN);
  }

  /**
   * The same.
   *
   * @param now what ended then or before is history: no absence or closed day touches it
   */
  public static Rebooking of(
      Diary diary,
      List<DiaryChange> changes,
      BookingWeights weights,
      LocalDate first,
      LocalDate last,
      Instant now) {
    Rebooker rebooker = new Rebooker(diary, weights, first, last, now);
    changes.forEach(rebooker::change);
    return rebooker.rebook();
  }

  // ---- what has happened

  private void change(DiaryChange change) {
    if (change instanceof DiaryChange.Cancelled cancelled) {
      end(cancelled.booking(), BookingStatus.CANCELLED);
    } else if (change instanceof DiaryChange.Missed missed) {
      end(missed.booking(), BookingStatus.MISSED);
    } else if (change instanceof DiaryChange.Away away) {
      away(away);
    } else if (change instanceof DiaryChange.Closed closed) {
      List<TimeOff> times = new ArrayList<>(diary.closed());
      times.add(new TimeOff(closed.first(), closed.last(), null, null, null));
      diary = diary.withClosed(times);
      for (Booking booking : standing()) {
        if (within(booking, closed.first(), closed.last())) {
          because.put(booking.id(), new Reason.PracticeClosed());
        }
      }
    }
  }

  private void end(String id, BookingStatus status) {
    Booking booking =
        diary
            .booking(id)
            .filter(one -> one.status() == BookingStatus.HELD || promised(one))
            .orElseThrow(
                () -> new IllegalArgumentException("No booking (" + id + ") stands in the diary."));
    diary = replaced(booking, booking.with(status));
    because.put(id, status == BookingStatus.MISSED ? new Reason.Missed() : new Reason.Cancelled());
  }

  private void away(DiaryChange.Away away) {
    Clinician clinician =
        diary
            .clinician(away.clinician())
            .orElseThrow(
                () ->
                    new IllegalArgumentException(
                        "The diary has no clinician (" + away.clinician() + ")."));
    List<TimeOff> off = new ArrayList<>(clinician.off());
    off.add(new TimeOff(away.first(), away.last(), null, null, null));
    List<Clinician> clinicians = new ArrayList<>(diary.clinicians());
    clinicians.set(clinicians.indexOf(clinician), clinician.withOff(off));
    diary = diary.withClinicians(clinicians);
    for (Booking booking : standing()) {
      if (!booking.taken(away.clinician()).isEmpty()
          && within(booking, away.first(), away.last())) {
        because.put(booking.id(), new Reason.ClinicianAway(clinician.id()));
      }
    }
  }

  private static boolean promised(Booking booking) {
    return booking.status() == BookingStatus.PROMISED;
  }

  private List<Booking> standing() {
    return standing(diary);
  }

  private static List<Booking> standing(Diary diary) {
    return diary.bookings().stream()
        .filter(one -> one.status() == BookingStatus.HELD || promised(one))
        .toList();
  }

  private boolean within(Booking booking, LocalDate from, LocalDate to) {
    LocalDate day = day(booking);
    return booking.end().isAfter(now) && !day.isBefore(from) && !day.isAfter(to);
  }

  private Diary replaced(Booking old, Booking other) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    bookings.set(bookings.indexOf(old), other);
    return diary.withBookings(bookings);
  }

  // ---- what follows

  /**
   * A course's new places.
   *
   * @param request what it asks for
   * @param visits all that were sought, where they are now
   * @param price what the moves cost
   */
  private record Plan(CourseRequest request, List<OfferedVisit> visits, long price) {}

  private Rebooking rebook() {
    // What must go is taken out first, so that nobody is kept from a place that is free by now.
    List<Booking> out = new ArrayList<>();
    for (Booking booking : before.bookings()) {
      if (because.containsKey(booking.id())) {
        out.add(booking);
      }
    }
    // The called off stay, with their status.
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    bookings.removeIf(one -> one.status().takesTime() && because.containsKey(one.id()));
    diary = diary.withBookings(bookings);
    for (CourseRequest course : before.courses()) {
      List<Booking> mine =
          out.stream().filter(one -> one.caseName().equals(course.caseName())).toList();
      if (!mine.isEmpty()) {
        course(course, mine);
      }
    }
    return new Rebooking(diary, moves, left, waiting(out), broken());
  }

  /** Deadlines whose second visit stood in the diary before, and stands there in time no more. */
  private List<Rebooking.Broken> broken() {
    List<Rebooking.Broken> broken = new ArrayList<>();
    for (CourseRequest course : before.courses()) {
      for (CourseRequest.Deadline deadline : course.deadlines()) {
        boolean stood = before.standing(course.caseName(), deadline.to()).isPresent();
        Booking begins = diary.standing(course.caseName(), deadline.from()).orElse(null);
        if (stood && begins != null) {
          LocalDate by = day(begins).plusDays(deadline.days());
          boolean kept =
              diary
                  .standing(course.caseName(), deadline.to())
                  .map(ends -> !day(ends).isAfter(by))
                  .orElse(false);
          if (!kept) {
            broken.add(new Rebooking.Broken(course.caseName(), deadline, by));
          }
        }
      }
    }
    return broken;
  }

  private LocalDate day(Booking booking) {
    return booking.start().atZone(diary.zone()).toLocalDate();
  }

  private void course(CourseRequest whole, List<Booking> out) {
    CourseRequest course = wanted(whole, out);
    Plan own = plan(diary, course, List.of()).orElse(null);
    Plan best = own;
    Plan room = null;
    long least = own == null ? Long.MAX_VALUE : own.price();
    if (own == null || own.price() > 0) {
      for (CourseRequest other : diary.courses()) {
        List<Booking> theirs = movable(diary, other);
        if (other.caseName().equals(course.caseName()) || theirs.isEmpty()) {
          continue;
        }
        Optional<Plan> here = plan(withdrawn(diary, theirs), course, List.of());
        if (here.isEmpty() || here.get().price() >= least) {
          continue;
        }
        // The other course is booked where it can keep what the first one leaves it.
        Diary after = with(diary, here.get());
        Optional<Plan> there = plan(withdrawn(after, theirs), wanted(other, List.of()), theirs);
        if (there.isPresent() && here.get().price() + there.get().price() < least) {
          best = here.get();
          room = there.get();
          least = best.price() + room.price();
        }
      }
    }
    if (best == null) {
      // No visit is booked whose visit before is not: those that follow go as well.
      int gone = out.stream().mapToInt(Booking::visit).min().orElseThrow();
      List<Booking> later =
          standing().stream()
              .filter(one -> one.caseName().equals(course.caseName()) && one.visit() > gone)
              .toList();
      for (Booking booking : out) {
        goesWithoutAPlace(booking, Objects.requireNonNull(because.get(booking.id())));
      }
      for (Booking booking : later) {
        goesWithoutAPlace(booking, new Reason.NothingBefore(gone));
      }
      return;
    }
    if (room != null) {
      take(room, visit -> new Reason.MakesRoom(course.caseName()), List.of());
    }
    // Of what must go, the first: what is before it follows nothing.
    int gone = out.stream().mapToInt(Booking::visit).min().orElseThrow();
    take(
        best,
        visit -> visit < gone ? new Reason.GoesBefore(gone) : new Reason.FollowsItsCourse(),
        out);
  }

  /**
   * What loses its place stays in the diary as called off, so that whoever was told of it is told.
   */
  private void goesWithoutAPlace(Booking booking, Reason why) {
    left.add(new Rebooking.Lost(booking, why));
    Optional<Booking> there = diary.booking(booking.id());
    if (there.isEmpty()) {
      List<Booking> bookings = new ArrayList<>(diary.bookings());
      bookings.add(booking.with(BookingStatus.CANCELLED));
      diary = diary.withBookings(bookings);
    } else if (there.get().status().takesTime()) {
      diary = replaced(there.get(), there.get().with(BookingStatus.CANCELLED));
    }
  }

  /** A course cut to the visits up to the last that is booked or must be: no more is asked here. */
  private CourseRequest wanted(CourseRequest course, List<Booking> out) {
    List<VisitRequest> visits = new ArrayList<>();
    for (VisitRequest visit : course.visits()) {
      boolean stands =
          diary.standing(course.caseName(), visit.number()).isPresent()
              || out.stream().anyMatch(one -> one.visit() == visit.number());
      if (!stands) {
        break;
      }
      visits.add(visit);
    }
    return visits.isEmpty() ? course : notThen(course.withVisits(visits), out);
  }

  /** Who called a visit off, or missed it, is not offered the same time with another clinician. */
  private CourseRequest notThen(CourseRequest course, List<Booking> out) {
    List<Interval> busy = new ArrayList<>(course.availability().busy());
    for (Booking booking : out) {
      // Called off bookings are still in the diary; those that must only move are not.
      if (diary.booking(booking.id()).isPresent()) {
        busy.add(booking.time());
      }
    }
    return course.withAvailability(
        new Availability(course.availability().weekly(), course.availability().off(), busy));
  }

  /** A course's bookings that may be moved: those on days on which something may be booked. */
  private List<Booking> movable(Diary in, CourseRequest course) {
    return standing(in).stream()
        .filter(one -> one.caseName().equals(course.caseName()) && within(one, first, last))
        .toList();
  }

  private static Diary withdrawn(Diary diary, List<Booking> some) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    bookings.removeAll(some);
    return diary.withBookings(bookings);
  }

  /**
   * The least disturbing way for one course.
   *
   * @param leaves bookings of the course that the diary has lost and that it would like to keep
   */
  private Optional<Plan> plan(Diary in, CourseRequest course, List<Booking> leaves) {
    List<Booking> bookings = new ArrayList<>(in.bookings());
    bookings.addAll(leaves);
    Diary known = in.withBookings(bookings);
    BookingCase booking = new BookingCase(known, weights, first, last);
    // What stands where it could not be booked now has been left there, and no change moves it.
    List<Booking> movable =
        movable(known, course).stream().filter(one -> open(booking, one)).toList();
    CourseCase sought = CourseCase.of(0, booking, course, movable, HELD, PROMISED);
    Occupancy taken = Occupancy.of(booking, movable);
    return CourseSearch.best(sought, taken, CourseSearch.Price.NONE)
        .map(
            found -> {
              List<OfferedVisit> visits = Offers.sought(sought, found.slots());
              long price = 0;
              for (OfferedVisit visit : visits) {
                Booking old = standing(movable, visit);
                price += old == null || at(old, visit) ? 0 : promised(old) ? PROMISED : HELD;
              }
              return new Plan(course, visits, price);
            });
  }

  private static boolean open(BookingCase booking, Booking one) {
    Slot slot = booking.slot(one);
    int end = slot.start() + one.minutes();
    return booking.clinicianShut(slot.clinician()).within(slot.start(), end) == 0
        && slot.calls().stream()
            .allMatch(
                call -> booking.clinicianShut(call.clinician()).within(call.from(), call.to()) == 0)
        && booking.chairShut(slot.chair()).within(slot.start(), end) == 0;
  }

  private static @Nullable Booking standing(List<Booking> among, OfferedVisit visit) {
    for (Booking booking : among) {
      if (booking.caseName().equals(visit.caseName())
          && booking.visit() == visit.visit()
          && booking.status().takesTime()) {
        return booking;
      }
    }
    return null;
  }

  private Booking at(OfferedVisit visit, Booking booking) {
    Booking moved = booking.at(visit.start(), visit.clinician(), visit.chair(), visit.injectors());
    return moved.equals(booking) ? booking : moved.withoutHoldOver(now);
  }

  private static boolean at(Booking booking, OfferedVisit visit) {
    return booking.start().equals(visit.start())
        && booking.clinician().equals(visit.clinician())
        && booking.chair().equals(visit.chair());
  }

  /** A diary with a plan's visits where the plan has them. */
  private Diary with(Diary diary, Plan plan) {
    List<Booking> bookings = new ArrayList<>(diary.bookings());
    List<OfferedVisit> fresh = new ArrayList<>();
    for (OfferedVisit visit : plan.visits()) {
      Booking old = standing(bookings, visit);
      if (old == null) {
        fresh.add(visit);
      } else {
        bookings.set(bookings.indexOf(old), at(visit, old));
      }
    }
    return Taking.booked(diary.withBookings(bookings), fresh);
  }

  private void take(Plan plan, IntFunction<Reason> otherwise, List<Booking> out) {
    for (OfferedVisit visit : plan.visits()) {
      Booking old = standing(diary.bookings(), visit);
      if (old == null) {
        // Gone from its place: it comes back under its own name unless it was called off.
        Booking base = goneFrom(out, visit);
        if (base == null) {
          diary = Taking.booked(diary, List.of(visit));
          continue;
        }
        boolean called = diary.booking(base.id()).isPresent();
        Booking now = at(visit, base);
        if (called) {
          diary = Taking.booked(diary, List.of(visit));
          now = diary.standing(visit.caseName(), visit.visit()).orElseThrow();
        } else {
          List<Booking> bookings = new ArrayList<>(diary.bookings());
          bookings.add(now);
          diary = diary.withBookings(bookings);
        }
        moves.add(
            new Rebooking.Move(
                base, now, because.getOrDefault(base.id(), otherwise.apply(visit.visit()))));
      } else if (!at(visit, old).equals(old)) {
        Booking now = at(visit, old);
        diary = replaced(old, now);
        moves.add(new Rebooking.Move(old, now, otherwise.apply(visit.visit())));
      }
    }
  }

  private static @Nullable Booking goneFrom(List<Booking> out, OfferedVisit visit) {
    for (Booking booking : out) {
      if (booking.visit() == visit.visit()) {
        return booking;
      }
    }
    return null;
  }

  // ---- freed time

  /** For each course that waits, its next visits if one of them lies in time that became free. */
  private List<OfferedVisit> waiting(List<Booking> out) {
    List<Interval> freed =
        Stream.concat(out.stream(), moves.stream().map(Rebooking.Move::from))
            .map(Booking::time)
            .toList();
    List<OfferedVisit> offers = new ArrayList<>();
    for (CourseRequest course : before.courses()) {
      // Who has just lost a place is not offered what may be the very time that was called off.
      boolean lost =
          left.stream().anyMatch(one -> one.booking().caseName().equals(course.caseName()));
      if (lost || diary.unbooked(course).isEmpty()) {
        continue;
      }
      // The best, and the one that finishes first where that is sooner.
      Offers.of(diary, course, weights, first, last, 2).stream()
          .filter(
              offer ->
                  offer.visits().stream()
                      .map(visit -> Interval.of(visit.start(), visit.minutes()))
                      .anyMatch(time -> freed.stream().anyMatch(time::overlaps)))
          .findFirst()
          .ifPresent(offer -> offers.addAll(offer.visits()));
    }
    return offers;
  }
}
