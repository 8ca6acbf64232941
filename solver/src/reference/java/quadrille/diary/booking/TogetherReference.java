package quadrille.diary.booking;

import com.google.ortools.Loader;
import com.google.ortools.sat.BoolVar;
import com.google.ortools.sat.CpModel;
import com.google.ortools.sat.CpSolver;
import com.google.ortools.sat.CpSolverStatus;
import com.google.ortools.sat.LinearExpr;
import com.google.ortools.sat.LinearExprBuilder;
import com.google.ortools.sat.Literal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import quadrille.diary.book.BusyTime;
import quadrille.diary.book.Clinician;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.Diary;
import quadrille.diary.book.SterileStock.SterileSet;
import quadrille.diary.book.VisitRequest;
import quadrille.diary.booking.problem.BookingWeights;

/**
 * Many patients' cheapest bookings by CP-SAT, a yes or no for each legal slot of each visit. Which
 * slots are legal by themselves is asked of the audit ({@link Reference}); what the visits are to
 * each other is said here anew: a clinician once, sets in stock, gaps, changes of clinician, and
 * the minutes left over between two visits.
 *
 * <p>It is for diaries without bookings in which each clinician has a chair that is free whenever
 * they are, as {@link RandomDiary} makes them where there are as many chairs as clinicians: there
 * chairs are never short, and each clinician's visits go to that chair. No visit may be shorter
 * than the fewest minutes that are of any use, so that two visits with less between them have
 * nothing between them.
 *
 * <p>Slots that no way of booking everybody at a known cost or less can use are left out: what a
 * course costs at least through a slot, and what all others cost at least by themselves, would come
 * to more.
 */
final class TogetherReference {

  /**
   * What CP-SAT made of it.
   *
   * @param slots given to it
   * @param best points; -1 if it found no way
   * @param bound no way costs less than this, or than the cost known before
   * @param visits as booked; none if it found no way
   */
  record Outcome(
      String status, int slots, long best, long bound, double wall, List<OfferedVisit> visits) {}

  /** A legal slot of a visit of a course, as a yes or no. */
  private record Option(
      CourseRequest course, Reference.Place place, Instant start, Instant end, BoolVar chosen) {

    VisitRequest visit() {
      return course.visits().get(place.visit());
    }
  }

  /** A visit's slots of one day with one clinician. */
  private record Spot(int day, int clinician) {}

  private final Diary diary;
  private final List<CourseRequest> courses;
  private final BookingWeights weights;
  private final LocalDate first;
  private final LocalDate last;
  private final CpModel model = new CpModel();
  private final LinearExprBuilder cost = LinearExpr.newBuilder();
  private final List<List<List<Option>>> options = new ArrayList<>();
  private int slots;

  TogetherReference(
      Diary diary,
      List<CourseRequest> courses,
      BookingWeights weights,
      LocalDate first,
      LocalDate last) {
    Loader.loadNativeLibraries();
    if (!diary.bookings().isEmpty() || diary.chairs().size() < diary.clinicians().size()) {
      throw new IllegalArgumentException("The diary has bookings, or too few chairs.");
    }
    for (CourseRequest course : courses) {
      for (VisitRequest visit : course.visits()) {
        if (visit.minutes() < weights.usableMinutes()
            || visit.number() > 1 && visit.gapMinDays() == 0) {
          throw new IllegalArgumentException("A visit is too short, or may share a day.");
        }
      }
    }
    this.diary = diary;
    this.courses = courses;
    this.weights = weights;
    this.first = first;
    this.last = last;
  }

  /**
   * Seeks the best way.
   *
   * @param known what some way costs; slots that only dearer ways use are left out
   */
  Outcome solve(long known, double seconds, int workers) {
    build(known);
    return solved(seconds, workers);
  }

  /** What some bookings cost in this model; -1 where they break one of its rules. */
  long cost(long known, List<OfferedVisit> visits) {
    build(known);
    int found = 0;
    for (Option option : all()) {
      for (OfferedVisit one : visits) {
        if (one.caseName().equals(option.course().caseName())
            && one.visit() == option.visit().number()
            && one.start().equals(option.start())
            && one.clinician().equals(who(option).id())) {
          model.addEquality(option.chosen(), 1);
          found++;
        }
      }
    }
    return found == visits.size() ? solved(60, 1).best() : -1;
  }

  private Outcome solved(double seconds, int workers) {
    model.minimize(cost);
    CpSolver solver = new CpSolver();
    solver.getParameters().setNumWorkers(workers).setRandomSeed(1).setMaxTimeInSeconds(seconds);
    CpSolverStatus status = solver.solve(model);
    boolean found = status == CpSolverStatus.OPTIMAL || status == CpSolverStatus.FEASIBLE;
    List<OfferedVisit> visits = new ArrayList<>();
    for (Option option : found ? all() : List.<Option>of()) {
      if (solver.booleanValue(option.chosen())) {
        visits.add(
            new OfferedVisit(
                option.course().caseName(),
                option.visit().number(),
                option.start(),
                option.visit().minutes(),
                who(option).id(),
                diary.chairs().get(option.place().clinician()).id()));
      }
    }
    return new Outcome(
        status.name(),
        slots,
        found ? Math.round(solver.objectiveValue()) : -1,
        Math.round(Math.ceil(solver.bestObjectiveBound() - 1e-6)),
        solver.wallTime(),
        visits);
  }

  private Clinician who(Option option) {
    return diary.clinicians().get(option.place().clinician());
  }

  private int day(Reference.Place place) {
    return (int) (place.day().toEpochDay() - first.toEpochDay());
  }

  // ---- what a course costs at least

  private void build(long known) {
    List<List<List<Reference.Place>>> places = new ArrayList<>();
    List<long[][]> least = new ArrayList<>();
    long sum = 0;
    List<Long> alone = new ArrayList<>();
    for (CourseRequest course : courses) {
      Reference reference = new Reference(diary, course, weights);
      List<List<Reference.Place>> own = new ArrayList<>();
      for (int visit = 0; visit < course.visits().size(); visit++) {
        own.add(reference.places(visit, first, last));
      }
      places.add(own);
      long[][] through = through(course, own);
      least.add(through);
      long cheapest = Long.MAX_VALUE;
      for (long one : through[0]) {
        cheapest = Math.min(cheapest, one);
      }
      alone.add(cheapest);
      sum += cheapest;
    }
    for (int course = 0; course < courses.size(); course++) {
      long most = known - (sum - alone.get(course));
      List<List<Option>> own = new ArrayList<>();
      for (int visit = 0; visit < places.get(course).size(); visit++) {
        List<Option> kept = new ArrayList<>();
        int minutes = courses.get(course).visits().get(visit).minutes();
        for (int i = 0; i < places.get(course).get(visit).size(); i++) {
          if (least.get(course)[visit][i] <= most) {
            Reference.Place place = places.get(course).get(visit).get(i);
            Instant start = place.day().atTime(place.start()).atZone(diary.zone()).toInstant();
            kept.add(
                new Option(
                    courses.get(course),
                    place,
                    start,
                    start.plus(Duration.ofMinutes(minutes)),
                    model.newBoolVar("")));
          }
        }
        slots += kept.size();
        own.add(kept);
      }
      options.add(own);
      course(courses.get(course), own);
    }
    clinicians();
    sets();
  }

  /** For each slot of each visit, what its course costs at least through it, if it were alone. */
  private long[][] through(CourseRequest course, List<List<Reference.Place>> places) {
    int visits = places.size();
    long[][] until = new long[visits][];
    long[][] from = new long[visits][];
    for (int visit = 0; visit < visits; visit++) {
      Map<Spot, Long> before =
          visit == 0 ? Map.of() : spots(places.get(visit - 1), until[visit - 1]);
      until[visit] = new long[places.get(visit).size()];
      for (int i = 0; i < until[visit].length; i++) {
        Reference.Place place = places.get(visit).get(i);
        until[visit][i] =
            place.cost()
                + (visit == 0 ? 0 : least(before, place, course.visits().get(visit), true));
      }
    }
    for (int visit = visits - 1; visit >= 0; visit--) {
      Map<Spot, Long> after =
          visit == visits - 1 ? Map.of() : spots(places.get(visit + 1), from[visit + 1]);
      from[visit] = new long[places.get(visit).size()];
      for (int i = 0; i < from[visit].length; i++) {
        Reference.Place place = places.get(visit).get(i);
        from[visit][i] =
            place.cost()
                + (visit == visits - 1
                    ? 0
                    : least(after, place, course.visits().get(visit + 1), false));
      }
    }
    for (int visit = 0; visit < visits; visit++) {
      for (int i = 0; i < until[visit].length; i++) {
        until[visit][i] += from[visit][i] - places.get(visit).get(i).cost();
      }
    }
    return until;
  }

  private static final long NEVER = 1_000_000_000L;

  private Map<Spot, Long> spots(List<Reference.Place> places, long[] costs) {
    Map<Spot, Long> spots = new LinkedHashMap<>();
    for (int i = 0; i < costs.length; i++) {
      Reference.Place place = places.get(i);
      spots.merge(new Spot(day(place), place.clinician()), costs[i], Math::min);
    }
    return spots;
  }

  /** The least of the spots of the visit before, or after, that the gap allows. */
  private long least(
      Map<Spot, Long> spots, Reference.Place place, VisitRequest later, boolean before) {
    long least = NEVER;
    for (Map.Entry<Spot, Long> entry : spots.entrySet()) {
      int days = before ? day(place) - entry.getKey().day() : entry.getKey().day() - day(place);
      if (days >= later.gapMinDays() && days <= later.gapMaxDays()) {
        boolean same = entry.getKey().clinician() == place.clinician();
        least = Math.min(least, entry.getValue() + (same ? 0 : weights.clinicianChange()));
      }
    }
    return least;
  }

  // ---- rules

  /**
   * Each visit once; from one to the next within the gap, with what a change of clinician costs.
   */
  private void course(CourseRequest course, List<List<Option>> own) {
    List<Map<Spot, LinearExprBuilder>> spots = new ArrayList<>();
    for (List<Option> visit : own) {
      List<Literal> all = new ArrayList<>();
      Map<Spot, LinearExprBuilder> days = new LinkedHashMap<>();
      for (Option option : visit) {
        all.add(option.chosen());
        cost.addTerm(option.chosen(), option.place().cost());
        days.computeIfAbsent(
                new Spot(day(option.place()), option.place().clinician()),
                key -> LinearExpr.newBuilder())
            .addTerm(option.chosen(), 1);
      }
      model.addExactlyOne(all);
      spots.add(days);
    }
    for (int visit = 1; visit < own.size(); visit++) {
      VisitRequest later = course.visits().get(visit);
      Map<Spot, LinearExprBuilder> in = new LinkedHashMap<>();
      for (Map.Entry<Spot, LinearExprBuilder> before : spots.get(visit - 1).entrySet()) {
        LinearExprBuilder out = LinearExpr.newBuilder();
        for (Spot after : spots.get(visit).keySet()) {
          int days = after.day() - before.getKey().day();
          if (days >= later.gapMinDays() && days <= later.gapMaxDays()) {
            BoolVar step = model.newBoolVar("");
            out.addTerm(step, 1);
            in.computeIfAbsent(after, key -> LinearExpr.newBuilder()).addTerm(step, 1);
            if (after.clinician() != before.getKey().clinician()) {
              cost.addTerm(step, weights.clinicianChange());
            }
          }
        }
        model.addEquality(out, before.getValue());
      }
      for (Map.Entry<Spot, LinearExprBuilder> after : spots.get(visit).entrySet()) {
        model.addEquality(
            in.computeIfAbsent(after.getKey(), key -> LinearExpr.newBuilder()), after.getValue());
      }
    }
  }

  private List<Option> all() {
    return options.stream().flatMap(List::stream).flatMap(List::stream).toList();
  }

  /** At each moment at which a visit may start, a clinician has one visit at most. */
  private void clinicians() {
    for (int clinician = 0; clinician < diary.clinicians().size(); clinician++) {
      int number = clinician;
      Map<LocalDate, List<Option>> days = new TreeMap<>();
      for (Option option : all()) {
        if (option.place().clinician() == number) {
          days.computeIfAbsent(option.place().day(), key -> new ArrayList<>()).add(option);
        }
      }
      for (List<Option> day : days.values()) {
        Map<Instant, List<Literal>> starts = new TreeMap<>();
        Map<Instant, List<Literal>> ends = new TreeMap<>();
        for (Option option : day) {
          starts.computeIfAbsent(option.start(), key -> new ArrayList<>()).add(option.chosen());
          ends.computeIfAbsent(option.end(), key -> new ArrayList<>()).add(option.chosen());
        }
        for (Instant moment : starts.keySet()) {
          model.addAtMostOne(
              day.stream()
                  .filter(one -> !one.start().isAfter(moment) && one.end().isAfter(moment))
                  .map(one -> (Literal) one.chosen())
                  .toList());
        }
        leftOver(diary.clinicians().get(number), starts, ends);
      }
    }
  }

  /** A visit that ends and one that starts a little later leave over what lies between them. */
  private void leftOver(
      Clinician who, Map<Instant, List<Literal>> starts, Map<Instant, List<Literal>> ends) {
    Reference free = new Reference(diary, courses.get(0), weights);
    for (Map.Entry<Instant, List<Literal>> end : ends.entrySet()) {
      for (int minutes = 1; minutes < weights.usableMinutes(); minutes++) {
        if (!free.free(who, end.getKey().plus(Duration.ofMinutes(minutes - 1L)))) {
          break;
        }
        List<Literal> next = starts.get(end.getKey().plus(Duration.ofMinutes(minutes)));
        if (next != null) {
          BoolVar between = model.newBoolVar("");
          cost.addTerm(between, (long) weights.sliverMinute() * minutes);
          LinearExprBuilder both = LinearExpr.newBuilder();
          end.getValue().forEach(one -> both.addTerm(one, 1));
          next.forEach(one -> both.addTerm(one, 1));
          both.addTerm(between, -1);
          model.addLessOrEqual(both, 1);
        }
      }
    }
  }

  /**
   * At each moment at which something that uses a set may start, no more are out than there are.
   */
  private void sets() {
    Duration reprocessing = Duration.ofMinutes(diary.stock().reprocessingMinutes());
    Map<LocalDate, List<Option>> days = new TreeMap<>();
    for (Option option : all()) {
      days.computeIfAbsent(option.place().day(), key -> new ArrayList<>()).add(option);
    }
    for (SterileSet set : diary.stock().sets()) {
      List<BusyTime> busy =
          diary.busy().stream().filter(one -> one.sets().contains(set.name())).toList();
      for (List<Option> day : days.values()) {
        List<Option> users = new ArrayList<>();
        TreeSet<Instant> moments = new TreeSet<>();
        for (Option option : day) {
          if (option.visit().sets().contains(set.name())) {
            users.add(option);
            moments.add(option.start());
          }
        }
        if (users.isEmpty()) {
          continue;
        }
        Instant end = moments.last().plus(Duration.ofDays(1));
        for (BusyTime one : busy) {
          if (!one.time().start().isBefore(moments.first()) && one.time().start().isBefore(end)) {
            moments.add(one.time().start());
          }
        }
        for (Instant moment : moments) {
          LinearExprBuilder out = LinearExpr.newBuilder();
          for (Option option : users) {
            if (!option.start().isAfter(moment)
                && option.end().plus(reprocessing).isAfter(moment)) {
              out.addTerm(option.chosen(), 1);
            }
          }
          long others =
              busy.stream()
                  .filter(
                      one ->
                          !one.time().start().isAfter(moment)
                              && one.time().end().plus(reprocessing).isAfter(moment))
                  .count();
          model.addLessOrEqual(out, Math.max(0, set.count() - others));
        }
      }
    }
  }
}
