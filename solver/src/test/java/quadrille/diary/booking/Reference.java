package quadrille.diary.booking;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.IntVar;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZonedDateTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.OptionalLong;
import java.util.TreeMap;
import quadrille.diary.audit.DiaryAudit;
import quadrille.diary.audit.DiaryFinding;
import quadrille.diary.audit.DiaryRule;
import quadrille.diary.book.Booking;
import quadrille.diary.book.BookingStatus;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Chair;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.book.WeeklyHours;
import quadrille.diary.booking.problem.BookingWeights;

/**
 * One patient's cheapest booking by CP-SAT. Shares nothing with the search: which slots are legal
 * is asked of the audit, one by one, and the terms are worked out from the words of docs/booking.md
 * with the clock on the wall.
 */
final class Reference {

  /**
   * A legal slot.
   *
   * @param cost of the terms that hang on this slot alone
   */
  record Place(int visit, LocalDate day, LocalTime start, int clinician, String chair, long cost) {}

  private final Diary diary;
  private final CourseRequest course;
  private final BookingWeights weights;

  Reference(Diary diary, CourseRequest course, BookingWeights weights) {
    Loader.loadNativeLibraries();
    this.diary = Taking.asking(diary, course);
    this.course = course;
    this.weights = weights;
  }

  /** The least cost; nothing where there is no legal way. */
  OptionalLong optimum(LocalDate first, LocalDate last) {
    CpModel model = new CpModel();
    LinearExprBuilder cost = LinearExpr.newBuilder();
    List<LinearExprBuilder> days = new ArrayList<>();
    List<Map<Integer, LinearExprBuilder>> with = new ArrayList<>();
    for (int i = 0; i < course.visits().size(); i++) {
      List<Literal> all = new ArrayList<>();
      LinearExprBuilder day = LinearExpr.newBuilder();
      Map<Integer, LinearExprBuilder> clinicians = new TreeMap<>();
      for (Place place : places(i, first, last)) {
        BoolVar chosen = model.newBoolVar("");
        all.add(chosen);
        cost.addTerm(chosen, place.cost());
        day.addTerm(chosen, ChronoUnit.DAYS.between(first, place.day()));
        clinicians
            .computeIfAbsent(place.clinician(), key -> LinearExpr.newBuilder())
            .addTerm(chosen, 1);
      }
      if (all.isEmpty()) {
        return OptionalLong.empty();
      }
      model.addExactlyOne(all);
      if (i > 0) {
        VisitRequest visit = course.visits().get(i);
        LinearExprBuilder gap =
            LinearExpr.newBuilder().add(day).addTerm(days.get(i - 1).build(), -1);
        int longer = course.longerGaps() == null ? 0 : course.longerGaps().days();
        model.addLinearConstraint(gap, visit.gapMinDays(), visit.gapMaxDays() + longer);
        // Days over the plan's longest gap, each at its price.
        IntVar over = model.newIntVar(0, longer, "");
        model.addLessOrEqual(
            LinearExpr.newBuilder().add(gap).addTerm(over, -1), visit.gapMaxDays());
        cost.addTerm(over, weights.longerGapDay());
        BoolVar change = model.newBoolVar("");
        cost.addTerm(change, weights.clinicianChange());
        for (Map.Entry<Integer, LinearExprBuilder> entry : clinicians.entrySet()) {
          // If now with this one and before not, then it is a change.
          LinearExprBuilder broken = LinearExpr.newBuilder().add(entry.getValue());
          LinearExprBuilder before = with.get(i - 1).get(entry.getKey());
          if (before != null) {
            broken.addTerm(before.build(), -1);
          }
          broken.addTerm(change, -1);
          model.addLessOrEqual(broken, 0);
        }
      }
      for (CourseRequest.Deadline deadline : course.deadlines()) {
        if (deadline.to() == course.visits().get(i).number()) {
          model.addLessOrEqual(
              LinearExpr.newBuilder().add(day).addTerm(days.get(deadline.from() - 1).build(), -1),
              deadline.days());
        }
      }
      days.add(day);
      with.add(clinicians);
    }
    model.minimize(cost);
    CpSolver solver = new CpSolver();
    solver.getParameters().setNumWorkers(1).setRandomSeed(1);
    CpSolverStatus status = solver.solve(model);
    return switch (status) {
      case OPTIMAL -> OptionalLong.of(Math.round(solver.objectiveValue()));
      case INFEASIBLE -> OptionalLong.empty();
      default -> throw new IllegalStateException("CP-SAT ended with " + status + ".");
    };
  }

  /** Every legal slot of a visit, each start and clinician with one chair. */
  List<Place> places(int index, LocalDate first, LocalDate last) {
    VisitRequest visit = course.visits().get(index);
    List<Place> places = new ArrayList<>();
    for (LocalDate day = first; !day.isAfter(last); day = day.plusDays(1)) {
      for (int minute = 0; minute < 24 * 60; minute += diary.startEveryMinutes()) {
        LocalTime start = LocalTime.MIN.plusMinutes(minute);
        for (int clinician = 0; clinician < diary.clinicians().size(); clinician++) {
          Clinician who = diary.clinicians().get(clinician);
          if (!worksAt(who, day, start)) {
            continue;
          }
          for (Chair chair : diary.chairs()) {
            if (legal(visit, day, start, who, chair)) {
              places.add(
                  new Place(
                      index,
                      day,
                      start,
                      clinician,
                      chair.id(),
                      cost(index, visit, day, start, clinician)));
              break;
            }
          }
        }
      }
    }
    return places;
  }

  private static boolean worksAt(Clinician who, LocalDate day, LocalTime start) {
    return who.hours().stream()
        .anyMatch(
            hours ->
                hours.days().contains(day.getDayOfWeek())
                    && !start.isBefore(hours.from())
                    && start.isBefore(hours.to()));
  }

  private boolean legal(
      VisitRequest visit, LocalDate day, LocalTime start, Clinician who, Chair chair) {
    Booking booking =
        new Booking(
            "x",
            course.caseName(),
            visit.number(),
            moment(day, start),
            visit.minutes(),
            who.id(),
            chair.id(),
            visit.sets(),
            visit.needs(),
            BookingStatus.HELD);
    // What lies on other days takes the audit's time and changes nothing.
    Instant dayBefore = moment(day, LocalTime.MIN).minus(Duration.ofDays(1));
    Instant dayAfter = dayBefore.plus(Duration.ofDays(3));
    List<Booking> bookings = new ArrayList<>();
    for (Booking one : diary.bookings()) {
      if (one.start().isAfter(dayBefore) && one.start().isBefore(dayAfter)) {
        bookings.add(one.with(BookingStatus.DONE));
      }
    }
    bookings.add(booking);
    List<BusyTime> busy =
        diary.busy().stream()
            .filter(one -> one.time().start().isAfter(dayBefore))
            .filter(one -> one.time().start().isBefore(dayAfter))
            .toList();
    Diary near = diary.withBookings(bookings).withBusy(busy);
    for (DiaryFinding finding : DiaryAudit.read(near)) {
      boolean later =
          finding.rule() == DiaryRule.GAP
              || finding.rule() == DiaryRule.ORDER && finding.message().contains("goes before it");
      if (!later) {
        return false;
      }
    }
    return true;
  }

  private Instant moment(LocalDate day, LocalTime time) {
    return ZonedDateTime.of(day, time, diary.zone()).toInstant();
  }

  private long cost(int index, VisitRequest visit, LocalDate day, LocalTime start, int clinician) {
    long cost = 0;
    long waited = Math.max(0, ChronoUnit.DAYS.between(course.asked(), day));
    if (index == 0) {
      cost += weights.waitDaySquared() * waited * waited;
    }
    if (index == course.visits().size() - 1) {
      cost += weights.finishDay() * waited;
    }
    String liked = course.preferences().clinician();
    Clinician who = diary.clinicians().get(clinician);
    if (liked != null && !liked.equals(who.id())) {
      cost += weights.otherClinician();
    }
    LocalTime end = start.plusMinutes(visit.minutes());
    List<WeeklyHours> times = course.preferences().times();
    if (!times.isEmpty()
        && times.stream()
            .noneMatch(
                hours ->
                    hours.days().contains(day.getDayOfWeek())
                        && !start.isBefore(hours.from())
                        && !end.isAfter(hours.to()))) {
      cost += weights.otherTime();
    }
    return cost + weights.sliverMinute() * leftover(who, day, start, visit.minutes());
  }

  /** Minutes on each side of a visit that nobody can use, counted one by one. */
  private long leftover(Clinician who, LocalDate day, LocalTime start, int minutes) {
    Instant from = moment(day, start);
    Instant to = from.plus(Duration.ofMinutes(minutes));
    int before = 0;
    while (free(who, from.minus(Duration.ofMinutes(before + 1L)))) {
      before++;
    }
    int after = 0;
    while (free(who, to.plus(Duration.ofMinutes(after)))) {
      after++;
    }
    int all = before + minutes + after;
    boolean touched =
        booked(who, from.minus(Duration.ofMinutes(before + 1L)))
            || booked(who, to.plus(Duration.ofMinutes(after)));
    return small(before) + small(after) - (touched ? small(all) : 0);
  }

  private long small(int minutes) {
    return minutes < weights.usableMinutes() ? minutes : 0;
  }

  private boolean booked(Clinician who, Instant minute) {
    return diary.bookings().stream()
        .anyMatch(
            one ->
                one.status().takesTime()
                    && one.clinician().equals(who.id())
                    && !one.start().isAfter(minute)
                    && one.end().isAfter(minute));
  }

  boolean free(Clinician who, Instant minute) {
    ZonedDateTime wall = minute.atZone(diary.zone());
    LocalTime time = wall.toLocalTime();
    boolean works =
        who.hours().stream()
            .anyMatch(
                hours ->
                    hours.days().contains(wall.getDayOfWeek())
                        && !time.isBefore(hours.from())
                        && time.isBefore(hours.to())
                        && hours.breaks().stream()
                            .noneMatch(
                                pause ->
                                    !time.isBefore(pause.from()) && time.isBefore(pause.to())));
    return works
        && !booked(who, minute)
        && diary.busy().stream()
            .noneMatch(
                busy ->
                    busy.takesClinician(who.id())
                        && !busy.time().start().isAfter(minute)
                        && busy.time().end().isAfter(minute));
  }
}
