package quadrille.diary.booking;

import ai.timefold.solver.core.preview.api.domain.metamodel.PlanningVariableMetaModel;
import ai.timefold.solver.core.preview.api.move.Move;
import ai.timefold.solver.core.preview.api.move.MutableSolutionView;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import quadrille.diary.booking.problem.CourseCase;
import quadrille.diary.booking.problem.Slot;

/**
 * Ruin and recreate (Schrimpf, Schneider, Stamm-Wilbrandt, Dueck 2000): takes a course and others
 * near it out of the diary and books them again, one after the other, each at its best. Where one
 * of those that were booked finds no place any more, all stay where they were.
 */
final class RebookMove implements Move<BookingSolution> {

  /** How much farther two courses count as apart where their clinicians differ; assumptions. */
  private static final int OTHER_CLINICIAN_TIMES = 2;

  private static final int OTHER_CLINICIAN_MINUTES = 60;

  /** Nearer than any that is booked: a course without a place comes first. */
  private static final long WITHOUT_A_PLACE = -1;

  private final PlanningVariableMetaModel<BookingSolution, BookedVisit, Slot> variable;
  private final BookedVisit seed;
  private final Ruin ruin;

  /** What a trial found. The solver takes a move that it accepts once more, from where it was. */
  private @Nullable Found known;

  RebookMove(
      PlanningVariableMetaModel<BookingSolution, BookedVisit, Slot> variable,
      BookedVisit seed,
      Ruin ruin) {
    this.variable = variable;
    this.seed = seed;
    this.ruin = ruin;
  }

  /** A course's visits among all. */
  private record Group(List<BookedVisit> visits) {
    CourseCase course() {
      return visits.get(0).course();
    }

    boolean booked() {
      return visits.stream().allMatch(BookedVisit::booked);
    }

    /** The day on which it ends as it stands; -1 where it has no place. */
    int lastDay() {
      return booked() ? course().booking().time().day(visits.get(visits.size() - 1).start()) : -1;
    }
  }

  /**
   * Where the courses that are taken out go.
   *
   * @param tried how many moves had been tried
   * @param slots of each, in order; null where it finds no place
   * @param worse whether one that was booked finds none
   */
  private record Found(
      int tried, List<Group> out, List<@Nullable List<Slot>> slots, boolean worse) {}

  @Override
  public void execute(MutableSolutionView<BookingSolution> view) {
    Found before = known;
    Found found =
        before != null && before.tried() == seed.within().scratch().tried() ? before : sought();
    known = found;
    if (found.worse()) {
      return;
    }
    for (int i = 0; i < found.out().size(); i++) {
      List<Slot> slots = found.slots().get(i);
      if (slots != null) {
        for (BookedVisit visit : found.out().get(i).visits()) {
          Slot slot = slots.get(visit.visitPlace());
          if (!visit.pinned() && !slot.equals(visit.slot())) {
            view.changeVariable(variable, visit, slot);
          }
        }
      }
    }
  }

  private Found sought() {
    List<BookedVisit> all = seed.within().visits();
    Occupancy taken = seed.within().scratch().of(all);
    List<Group> out = chosen(all);
    for (Group group : out) {
      place(taken, group, false, null);
    }
    List<@Nullable List<Slot>> found = new ArrayList<>();
    boolean worse = false;
    for (Group group : out) {
      Optional<CourseSearch.Found> best =
          CourseSearch.best(group.course(), taken, CourseSearch.Price.NONE, group.lastDay());
      List<Slot> slots = best.map(CourseSearch.Found::slots).orElse(null);
      worse |= slots == null && group.booked();
      found.add(slots);
      if (slots != null) {
        place(taken, group, true, slots);
      }
    }
    // The record of what is taken follows the visits, so it goes back to where they stand.
    for (int i = 0; i < out.size(); i++) {
      List<Slot> slots = found.get(i);
      if (slots != null) {
        place(taken, out.get(i), false, slots);
      }
    }
    for (Group group : out) {
      place(taken, group, true, null);
    }
    return new Found(seed.within().scratch().tried(), out, found, worse);
  }

  /**
   * @param slots where the visits go; null for where they stand
   */
  private static void place(
      Occupancy taken, Group group, boolean take, @Nullable List<Slot> slots) {
    for (BookedVisit visit : group.visits()) {
      Slot slot = slots == null ? visit.slot() : slots.get(visit.visitPlace());
      if (slot != null && !visit.pinned()) {
        if (take) {
          taken.place(slot, visit.visit().minutes(), visit.visit().uses());
        } else {
          taken.remove(slot, visit.visit().minutes(), visit.visit().uses());
        }
      }
    }
  }

  /**
   * The seed's course and as many others as wanted, in the order in which they are booked again.
   */
  private List<Group> chosen(List<BookedVisit> all) {
    List<Group> groups = groups(all);
    Group first = groups.get(seed.courseNumber());
    List<Group> near = nearest(first, groups, ruin.courses() - 1 + ruin.apart());
    List<Group> chosen = new ArrayList<>(List.of(first));
    for (int i = 1; i < ruin.courses() && !near.isEmpty(); i++) {
      chosen.add(near.remove(Math.min(ruin.apart(), near.size() - 1)));
    }
    if (ruin.backwards()) {
      Collections.reverse(chosen);
    }
    return chosen;
  }

  private record Near(Group group, long distance) {}

  /** The nearest of a group's others, the nearest first, and in their order where equally near. */
  private static List<Group> nearest(Group first, List<Group> groups, int most) {
    List<Near> near = new ArrayList<>(most + 1);
    for (Group group : groups) {
      if (group.course().number() != first.course().number() && most > 0) {
        long distance = distance(first, group);
        int at = near.size();
        while (at > 0 && near.get(at - 1).distance() > distance) {
          at--;
        }
        if (at < most) {
          near.add(at, new Near(group, distance));
          if (near.size() > most) {
            near.remove(most);
          }
        }
      }
    }
    List<Group> groupsNear = new ArrayList<>();
    near.forEach(one -> groupsNear.add(one.group()));
    return groupsNear;
  }

  private static List<Group> groups(List<BookedVisit> all) {
    List<Group> groups = new ArrayList<>();
    int from = 0;
    for (int i = 1; i <= all.size(); i++) {
      if (i == all.size() || all.get(i).courseNumber() != all.get(from).courseNumber()) {
        groups.add(new Group(all.subList(from, i)));
        from = i;
      }
    }
    return groups;
  }

  /** How far the nearest visits of two courses lie from each other; less with one clinician. */
  private static long distance(Group one, Group other) {
    if (!other.booked()) {
      return WITHOUT_A_PLACE;
    }
    long least = Long.MAX_VALUE / 2;
    for (BookedVisit a : one.visits()) {
      for (BookedVisit b : other.visits()) {
        if (a.booked()) {
          long apart = Math.abs(a.start() - b.start());
          least =
              Math.min(
                  least,
                  a.clinician() == b.clinician()
                      ? apart
                      : OTHER_CLINICIAN_TIMES * apart + OTHER_CLINICIAN_MINUTES);
        }
      }
    }
    return least;
  }
}
