package quadrille.diary.booking;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.book.CourseRequest;
import quadrille.diary.book.NeedleTime;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.MinuteSet;
import quadrille.diary.booking.problem.Slot;
import quadrille.diary.booking.problem.TimeLine;
import quadrille.diary.booking.problem.VisitCase;

/**
 * Dynamic programming over a layered graph (Bellman 1957), or branch and bound (Land and Doig
 * 1960): the cheapest feasible slots for the visits of one course in what the diary has left,
 * proven so. Where visits of the course cannot get into each other's way (they lie on different
 * days, and sets are back overnight), the graph's layers are the visits, its nodes days and
 * clinicians: of all starts of a visit on a day with a clinician only the cheapest matters. Where
 * they can, branch and bound over all starts. A deadline between visits that do not follow each
 * other is kept by trying each day of the one that it counts from.
 */
final class CourseSearch {

  /** What a slot costs beside the course's own terms, 0 or more. */
  interface Price {
    Price NONE = (visit, day, start, clinician) -> 0;

    long of(VisitCase visit, int day, int start, int clinician);
  }

  /**
   * The slots of all visits, in their order; of fixed visits where they stand.
   *
   * @param cost by the course's terms and the price asked with
   */
  record Found(List<Slot> slots, long cost) {
    Found {
      slots = List.copyOf(slots);
    }
  }

  /** Days after the earliest end that are looked at first; it changes the time, not the outcome. */
  private static final int FIRST_LOOK = 10;

  private final CourseCase course;
  private final Occupancy taken;
  private final Price price;
  private final List<VisitCase> visits;
  private final TimeLine time;
  private final int lastDay;
  private final @Nullable Node[][] nodes;
  private final int[] from;
  private final int[] to;
  // That a clinician has no room on a day.
  private final Node nothing;
  private @Nullable Found best;

  private CourseSearch(CourseCase course, Occupancy taken, Price price) {
    this.course = course;
    this.taken = taken;
    this.price = price;
    this.visits = course.visits();
    this.time = course.booking().time();
    this.lastDay = time.days() - 1;
    this.nodes = new Node[visits.size()][time.days() * course.booking().clinicians()];
    this.from = new int[visits.size()];
    this.to = new int[visits.size()];
    this.nothing = new Node(visits.get(0), 0, 0, 0, 0);
  }

  /**
   * The best slots, if there are legal ones at all.
   *
   * @param taken without the course's visits that are sought; the same afterwards
   */
  static Optional<Found> best(CourseCase course, Occupancy taken, Price price) {
    return best(course, taken, price, -1);
  }

  /**
   * The same for a caller who has a guess.
   *
   * @param likely day on which the course is likely to end, so that one look is enough; -1 where
   *     there is no guess. It changes the time, not the outcome
   */
  static Optional<Found> best(CourseCase course, Occupancy taken, Price price, int likely) {
    return Optional.ofNullable(new CourseSearch(course, taken, price).search(likely));
  }

  private @Nullable Found search(int likely) {
    int last = visits.size() - 1;
    if (visits.get(last).fixed() != null) {
      return within(lastDay);
    }
    if (!days(lastDay)) {
      return null;
    }
    int limit = Math.min(lastDay, likely < from[last] ? from[last] + FIRST_LOOK : likely);
    while (true) {
      Found found = within(limit);
      int next = found == null ? 2 * limit - from[last] + FIRST_LOOK : worthwhile(found.cost());
      next = Math.min(next, lastDay);
      if (next <= limit) {
        return found;
      }
      limit = next;
      days(lastDay);
    }
  }

  /**
   * The last day on which finishing could still cost less than this. Whoever finishes late has
   * waited long, since the days between visits are bounded, unless some stand already; and nobody
   * begins before the first day with room.
   */
  private int worthwhile(long cost) {
    int room = Math.max(0, firstRoom());
    int most = 0;
    for (VisitCase visit : visits) {
      most = Math.min(lastDay, most + course.gapMaxDays(visit));
    }
    if (visits.stream().anyMatch(visit -> visit.fixed() != null)) {
      most = lastDay;
    }
    int day = lastDay;
    while (day >= 0
        && course.finishCost(day) + course.waitCost(Math.max(room, day - most)) - slack() >= cost) {
      day--;
    }
    return day;
  }

  /** The first day known to have room for the first visit, or that was not looked at. */
  private int firstRoom() {
    int clinicians = course.booking().clinicians();
    int day = from[0];
    while (day < lastDay && visits.get(0).fixed() == null) {
      for (int clinician = 0; clinician < clinicians; clinician++) {
        Node node = nodes[0][day * clinicians + clinician];
        if (visits.get(0).may().get(clinician) && node != nothing) {
          return day;
        }
      }
      day++;
    }
    return day;
  }

  /** By how much the leftovers of a day can shrink at most through these visits. */
  private long slack() {
    long slack = 0;
    for (VisitCase visit : visits) {
      if (visit.fixed() == null && visit.minutes() < course.weights().usableMinutes()) {
        slack += (long) course.weights().sliverMinute() * course.weights().usableMinutes();
      }
    }
    return slack;
  }

  /** Between which days each visit can lie if the last lies on a day up to this; whether it can. */
  private boolean days(int limit) {
    int last = visits.size() - 1;
    for (int i = 0; i <= last; i++) {
      VisitCase visit = visits.get(i);
      if (visit.fixed() != null) {
        from[i] = visit.fixedDay();
        to[i] = visit.fixedDay();
        continue;
      }
      from[i] = Math.max(0, course.earliest());
      to[i] = limit;
    }
    return narrowed();
  }

  /** Narrows the days of visits by gaps and deadlines; whether each visit has any left. */
  private boolean narrowed() {
    int last = visits.size() - 1;
    for (int i = 1; i <= last; i++) {
      VisitCase visit = visits.get(i);
      if (visit.fixed() == null) {
        from[i] = Math.max(from[i], from[i - 1] + visit.request().gapMinDays());
        to[i] = Math.min(to[i], to[i - 1] + course.gapMaxDays(visit));
        for (CourseRequest.Deadline deadline : course.deadlines()) {
          if (deadline.to() == i) {
            to[i] = Math.min(to[i], to[deadline.from()] + deadline.days());
          }
        }
      }
    }
    for (int i = last - 1; i >= 0; i--) {
      if (visits.get(i).fixed() == null) {
        to[i] = Math.min(to[i], to[i + 1] - visits.get(i + 1).request().gapMinDays());
        from[i] = Math.max(from[i], from[i + 1] - course.gapMaxDays(visits.get(i + 1)));
        for (CourseRequest.Deadline deadline : course.deadlines()) {
          if (deadline.from() == i) {
            from[i] = Math.max(from[i], from[deadline.to()] - deadline.days());
          }
        }
      }
    }
    for (int i = 0; i <= last; i++) {
      if (from[i] > to[i]) {
        return false;
      }
    }
    return true;
  }

  private @Nullable Found within(int limit) {
    if (!days(limit)) {
      return null;
    }
    if (meet()) {
      best = null;
      descend(0, new ArrayList<>(), 0);
      return best;
    }
    return programme(0);
  }

  /** Whether visits of the course can get into each other's way. */
  private boolean meet() {
    int reprocessing = course.booking().diary().stock().reprocessingMinutes();
    for (int i = 1; i < visits.size(); i++) {
      int gap = visits.get(i).request().gapMinDays();
      if (gap == 0
          || reprocessing > 24 * 60 * (gap - 1) && reprocessing > course.booking().night()) {
        return true;
      }
    }
    return false;
  }

  // ---- the dynamic programme

  private static final class Node {
    private final VisitCase visit;
    private final int day;
    private final int start;
    private final int clinician;
    private final long own;
    private long total;
    private @Nullable Node before;

    Node(VisitCase visit, int day, int start, int clinician, long own) {
      this.visit = visit;
      this.day = day;
      this.start = start;
      this.clinician = clinician;
      this.own = own;
    }
  }

  /**
   * The best within the days, each day of the visits tried from which a deadline counts to another
   * than the next.
   *
   * @param place from which on visits are looked at
   */
  private @Nullable Found programme(int place) {
    int at = place;
    while (at < visits.size() && !far(at)) {
      at++;
    }
    if (at == visits.size()) {
      return programme();
    }
    int[] fromWas = from.clone();
    int[] toWas = to.clone();
    Found least = null;
    for (int day = fromWas[at]; day <= toWas[at]; day++) {
      System.arraycopy(fromWas, 0, from, 0, from.length);
      System.arraycopy(toWas, 0, to, 0, to.length);
      from[at] = day;
      to[at] = day;
      Found found = narrowed() && inTime() ? programme(at + 1) : null;
      if (found != null && (least == null || found.cost() < least.cost())) {
        least = found;
      }
    }
    System.arraycopy(fromWas, 0, from, 0, from.length);
    System.arraycopy(toWas, 0, to, 0, to.length);
    return least;
  }

  /** Whether a deadline counts from a visit to another than the next. */
  private boolean far(int place) {
    return course.deadlines().stream().anyMatch(one -> one.from() == place && one.to() > place + 1);
  }

  /** Whether each deadline can still be kept; a visit that stands fixed is not narrowed. */
  private boolean inTime() {
    return course.deadlines().stream()
        .allMatch(one -> from[one.to()] - to[one.from()] <= one.days());
  }

  private @Nullable Found programme() {
    List<Node> layer = List.of();
    for (VisitCase visit : visits) {
      if (visit.place() > 0 && layer.isEmpty()) {
        return null;
      }
      List<Node> next =
          visit.place() == 0
              ? layer(visit, 0, lastDay)
              : layer(
                  visit,
                  layer.get(0).day + visit.request().gapMinDays(),
                  layer.get(layer.size() - 1).day + mostDays(visit));
      List<Node> reached = new ArrayList<>(next.size());
      int lowest = 0;
      for (Node node : next) {
        node.before = null;
        if (visit.place() == 0) {
          node.total = node.own + course.waitCost(node.day);
          reached.add(node);
          continue;
        }
        boolean history = visit.fixed() != null && visits.get(visit.place() - 1).fixed() != null;
        int least = node.day - mostDays(visit);
        int most = node.day - visit.request().gapMinDays();
        while (!history && lowest < layer.size() && layer.get(lowest).day < least) {
          lowest++;
        }
        for (int i = lowest; i < layer.size(); i++) {
          Node before = layer.get(i);
          if (!history && before.day > most) {
            break;
          }
          long total =
              before.total
                  + node.own
                  + course.changeCost(before.clinician, node.clinician)
                  + course.gapCost(visit, node.day - before.day);
          if (node.before == null || total < node.total) {
            node.before = before;
            node.total = total;
          }
        }
        if (node.before != null) {
          reached.add(node);
        }
      }
      layer = reached;
    }
    Node end = null;
    long cost = 0;
    for (Node node : layer) {
      long total = node.total + course.finishCost(node.day);
      if (end == null || total < cost) {
        end = node;
        cost = total;
      }
    }
    if (end == null) {
      return null;
    }
    List<Slot> slots = new ArrayList<>();
    for (Node node = end; node != null; node = node.before) {
      Slot fixed = node.visit.fixed();
      slots.add(0, fixed != null ? fixed : slot(node.visit, node.start, node.clinician));
    }
    return new Found(slots, cost);
  }

  /** Most days after the visit before, by the gap and by a deadline that counts from there. */
  private int mostDays(VisitCase visit) {
    int most = course.gapMaxDays(visit);
    for (CourseRequest.Deadline deadline : course.deadlines()) {
      if (deadline.to() == visit.place() && deadline.from() == visit.place() - 1) {
        most = Math.min(most, deadline.days());
      }
    }
    return most;
  }

  /** What a visit can choose from between two days, by day. */
  private List<Node> layer(VisitCase visit, int first, int last) {
    Slot fixed = visit.fixed();
    if (fixed != null) {
      return List.of(
          new Node(visit, visit.fixedDay(), fixed.start(), fixed.clinician(), own(visit, fixed)));
    }
    List<Node> layer = new ArrayList<>();
    int clinicians = course.booking().clinicians();
    int most = Math.min(to[visit.place()], last);
    for (int day = Math.max(from[visit.place()], first); day <= most; day++) {
      for (int clinician = 0; clinician < clinicians; clinician++) {
        if (visit.may().get(clinician)) {
          Node node = nodes[visit.place()][day * clinicians + clinician];
          if (node == null) {
            node = cheapest(visit, day, clinician);
            nodes[visit.place()][day * clinicians + clinician] = node;
          }
          if (node != nothing) {
            layer.add(node);
          }
        }
      }
    }
    return layer;
  }

  private Node cheapest(VisitCase visit, int day, int clinician) {
    if (taken.longestFree(clinician, day) < visit.minutes()) {
      return nothing;
    }
    long least = Long.MAX_VALUE;
    long lowest = lowest(visit, clinician);
    int at = -1;
    for (int start = next(visit, day, clinician, time.dayStart(day));
        start >= 0 && least > lowest;
        start = next(visit, day, clinician, start + 1)) {
      long own = own(visit, day, start, clinician);
      if (own < least
          && taken.chairFree(start, visit.minutes())
          && taken.setsInStock(start, visit.minutes(), visit.uses())
          && taken.injectors(visit, start, clinician) != null) {
        least = own;
        at = start;
      }
    }
    return at < 0 ? nothing : new Node(visit, day, at, clinician, least);
  }

  /** What a visit costs at the least with a clinician; only a short one fills leftovers up. */
  private long lowest(VisitCase visit, int clinician) {
    return visit.minutes() < course.weights().usableMinutes()
        ? Long.MIN_VALUE
        : course.clinicianCost(clinician) + course.injectorCost(visit.needleMinutes(clinician));
  }

  /** The next start, from a minute on, at which clinician and patient are free; -1 if none. */
  private int next(VisitCase visit, int day, int clinician, int minute) {
    int end = time.dayStart(day + 1) - visit.minutes();
    MinuteSet starts = course.booking().starts();
    MinuteSet away = course.patientShut();
    Slot kept = visit.kept();
    int standing = kept != null && kept.clinician() == clinician ? kept.start() : -1;
    int start = minute;
    while (true) {
      int grid = starts.next(start);
      start = standing >= start && (grid < 0 || standing < grid) ? standing : grid;
      if (start < 0 || start > end) {
        return -1;
      }
      int busy = taken.clinicianTaken(clinician, start);
      if (busy < start + visit.minutes()) {
        start = taken.clinicianFree(clinician, busy);
        continue;
      }
      int gone = away.next(start);
      if (gone >= 0 && gone < start + visit.minutes()) {
        start = away.nextOutside(gone);
        continue;
      }
      return start;
    }
  }

  /** A slot at a start at which all that it needs is free. */
  private Slot slot(VisitCase visit, int start, int clinician) {
    Slot kept = visit.kept();
    List<Slot.Call> calls =
        kept != null
                && kept.start() == start
                && kept.clinician() == clinician
                && called(visit, kept)
                && taken.free(kept.calls())
            ? kept.calls()
            : Objects.requireNonNull(taken.injectors(visit, start, clinician));
    return new Slot(start, clinician, chair(visit, start, clinician), calls);
  }

  /** Whether those who come to inject where a visit stands are those that it needs. */
  private boolean called(VisitCase visit, Slot kept) {
    List<NeedleTime> needles =
        visit.aided().get(kept.clinician()) ? visit.request().needles() : List.of();
    boolean called = needles.size() == kept.calls().size();
    for (int i = 0; called && i < needles.size(); i++) {
      Slot.Call call = kept.calls().get(i);
      called =
          call.from() == kept.start() + needles.get(i).from()
              && call.to() == kept.start() + needles.get(i).to()
              && course.booking().diary().clinicians().get(call.clinician()).mayInject();
    }
    return called;
  }

  /** The chair: that where it stands if it stays and can, or else the free one that fits best. */
  private int chair(VisitCase visit, int start, int clinician) {
    Slot kept = visit.kept();
    return kept != null
            && kept.start() == start
            && kept.clinician() == clinician
            && taken.chairFree(kept.chair(), start, visit.minutes())
        ? kept.chair()
        : taken.chair(start, visit.minutes());
  }

  private long own(VisitCase visit, Slot fixed) {
    return course.clinicianCost(fixed.clinician())
        + course.timeCost(Math.max(0, fixed.start()), visit.minutes())
        + course.injectorCost(fixed.callMinutes());
  }

  private long own(VisitCase visit, int day, int start, int clinician) {
    Slot kept = visit.kept();
    boolean moved = kept != null && (kept.start() != start || kept.clinician() != clinician);
    return course.clinicianCost(clinician)
        + course.timeCost(start, visit.minutes())
        + course.injectorCost(visit.needleMinutes(clinician))
        + (long) course.weights().sliverMinute()
            * taken.sliver(clinician, day, start, visit.minutes())
        + (moved ? visit.movingPoints() : 0)
        + price.of(visit, day, start, clinician);
  }

  // ---- branch and bound

  private void descend(int place, List<Slot> chosen, long cost) {
    if (place == visits.size()) {
      int day = time.day(chosen.get(place - 1).start());
      long total = cost + course.finishCost(day);
      if (best == null || total < best.cost()) {
        best = new Found(chosen, total);
      }
      return;
    }
    VisitCase visit = visits.get(place);
    Slot fixed = visit.fixed();
    if (fixed != null) {
      if (follows(visit, chosen, visit.fixedDay(), fixed.start())) {
        chosen.add(fixed);
        descend(
            place + 1, chosen, cost + own(visit, fixed) + step(chosen, visit.fixedDay(), place));
        chosen.remove(place);
      }
      return;
    }
    int low = from[place];
    int high = to[place];
    if (place > 0) {
      int before = time.day(chosen.get(place - 1).start());
      low = Math.max(low, before + visit.request().gapMinDays());
      high = Math.min(high, before + course.gapMaxDays(visit));
    }
    for (int day = low; day <= high; day++) {
      if (best != null && cost + atLeast(place, day) >= best.cost()) {
        continue;
      }
      for (int clinician = 0; clinician < course.booking().clinicians(); clinician++) {
        if (!visit.may().get(clinician)) {
          continue;
        }
        for (int start = next(visit, day, clinician, time.dayStart(day));
            start >= 0;
            start = next(visit, day, clinician, start + 1)) {
          choose(visit, chosen, cost, day, start, clinician);
        }
      }
    }
  }

  private void choose(
      VisitCase visit, List<Slot> chosen, long cost, int day, int start, int clinician) {
    int place = visit.place();
    if (!follows(visit, chosen, day, start)
        || !taken.chairFree(start, visit.minutes())
        || !taken.setsInStock(start, visit.minutes(), visit.uses())
        || taken.injectors(visit, start, clinician) == null) {
      return;
    }
    Slot slot = slot(visit, start, clinician);
    chosen.add(slot);
    long now = cost + own(visit, day, start, clinician) + step(chosen, day, place);
    if (best == null || now + atLeast(place, day) < best.cost()) {
      taken.place(slot, visit.minutes(), visit.uses());
      descend(place + 1, chosen, now);
      taken.remove(slot, visit.minutes(), visit.uses());
    }
    chosen.remove(place);
  }

  /** Whether a visit at this time comes after the one before, with the days between as asked. */
  private boolean follows(VisitCase visit, List<Slot> chosen, int day, int start) {
    if (visit.place() == 0) {
      return true;
    }
    VisitCase before = visits.get(visit.place() - 1);
    if (visit.fixed() != null && before.fixed() != null) {
      return true;
    }
    Slot slot = chosen.get(before.place());
    int days = day - time.day(slot.start());
    return slot.start() + before.minutes() <= start
        && days >= visit.request().gapMinDays()
        && days <= course.gapMaxDays(visit)
        && course.deadlines().stream()
            .filter(one -> one.to() == visit.place())
            .allMatch(one -> day - time.day(chosen.get(one.from()).start()) <= one.days());
  }

  /** What the way to the last visit chosen costs. */
  private long step(List<Slot> chosen, int day, int place) {
    return place == 0
        ? course.waitCost(day)
        : course.changeCost(chosen.get(place - 1).clinician(), chosen.get(place).clinician())
            + course.gapCost(visits.get(place), day - time.day(chosen.get(place - 1).start()));
  }

  /** The least that finishing costs if a visit lies on a day, and what leftovers can give back. */
  private long atLeast(int place, int day) {
    int end = day;
    for (int i = place + 1; i < visits.size(); i++) {
      end += visits.get(i).request().gapMinDays();
    }
    return course.finishCost(Math.max(end, from[visits.size() - 1])) - slack();
  }
}
