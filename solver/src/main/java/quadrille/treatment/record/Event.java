package quadrille.treatment.record;

import java.time.LocalDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Practice;
import quadrille.plan.course.Course;
import quadrille.plan.course.PlanChange;

/** What an entry of a course's log says. */
public sealed interface Event
    permits Event.Planned,
        VisitDone,
        Corrected,
        Event.Booked,
        Event.TeethConfirmed,
        Event.Replanned {

  /**
   * As written in the log: planned, visit-done, corrected, booked, teeth-confirmed or replanned.
   */
  String word();

  /**
   * The course begins. The log stands alone: it holds the chart and the practice that the plan was
   * made from, whole.
   *
   * @param course the plan
   * @param chart the mouth as charted before any visit
   * @param practice with all its figures, as they were on that day
   */
  record Planned(Course course, Chart chart, Practice practice) implements Event {
    @Override
    public String word() {
      return "planned";
    }
  }

  /**
   * Visits have been promised to the patient. A later booking of a visit takes the place of an
   * earlier one.
   *
   * @param visits at least one
   */
  record Booked(List<Appointment> visits) implements Event {

    public Booked {
      visits = List.copyOf(visits);
    }

    @Override
    public String word() {
      return "booked";
    }
  }

  /**
   * One promised visit.
   *
   * @param visit its number in the course
   * @param start on the practice's wall clock
   * @param minutes booked, 1 or more
   * @param clinician who, where it has been settled
   */
  record Appointment(int visit, LocalDateTime start, int minutes, @Nullable String clinician) {}

  /**
   * A person has confirmed what the log says of some teeth that were recorded when the log did not
   * yet say how it names them ({@link TeethInDoubt}).
   *
   * @param teeth at least one
   * @param by who, by the practice's own reference
   */
  record TeethConfirmed(List<Tooth> teeth, String by) implements Event {

    public TeethConfirmed {
      teeth = teeth.stream().distinct().sorted().toList();
    }

    @Override
    public String word() {
      return "teeth-confirmed";
    }
  }

  /**
   * What is left has been planned again.
   *
   * @param course the visits still to come; they carry on the numbers of those that were done
   * @param chart the mouth with everything that was found so far
   * @param changes against the plan before, each with its reason; empty where nothing changed
   * @param practice whose figures hold from now on, whole; null where they stay those before
   */
  record Replanned(
      Course course, Chart chart, List<PlanChange> changes, @Nullable Practice practice)
      implements Event {

    public Replanned {
      changes = List.copyOf(changes);
    }

    /** With the practice's figures as they were. */
    public Replanned(Course course, Chart chart, List<PlanChange> changes) {
      this(course, chart, changes, null);
    }

    @Override
    public String word() {
      return "replanned";
    }
  }
}
