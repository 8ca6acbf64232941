package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.practice.Pass;

/**
 * One difference between two plans of a course.
 *
 * @param visit the number of the visit that it concerns, of the old plan or the new one; null where
 *     it concerns the whole course
 */
public record PlanChange(@Nullable Integer visit, What what, Why why) {

  /** One pass of one area. */
  public record AreaPass(AreaRef area, Pass pass) {}

  /** What changed. */
  public sealed interface What {

    /** As a plan file or a course's log has it. */
    record AsWritten(String text) implements What {}

    /**
     * The figures of another practice.
     *
     * @param name of the practice whose figures hold
     * @param before of the one before; the same where only the figures are others
     */
    record OtherPractice(String name, String before) implements What {}

    /** The visit is no longer planned. */
    record FallsAway(boolean booked) implements What {}

    /** The visit was not planned before. */
    record IsNew(int bookedMinutes, List<AreaPass> passes) implements What {
      public IsNew {
        passes = List.copyOf(passes);
      }
    }

    /** The visit takes a pass that it had not. */
    record Takes(AreaPass pass) implements What {}

    /** The visit has a pass no more. */
    record NoLongerHas(AreaPass pass) implements What {}

    /** A pass takes another time. */
    record Seconds(AreaPass pass, int seconds, int before) implements What {}

    /**
     * The visit needs another length.
     *
     * @param booked the minutes of its appointment; null where it has none
     */
    record Needs(int minutes, int before, @Nullable Integer booked) implements What {}

    /** Another side is numb. */
    record Numbs(NumbSide side, NumbSide before) implements What {}

    /** Other injections are given. */
    record Gives(List<GivenInjection> injections, List<GivenInjection> before) implements What {
      public Gives {
        injections = List.copyOf(injections);
        before = List.copyOf(before);
      }
    }

    /** The same steps in another order. */
    record OtherOrder() implements What {}
  }

  /** Why it changed. */
  public sealed interface Why {

    /** As a plan file or a course's log has it. */
    record AsWritten(String text) implements Why {}

    /**
     * An earlier visit left work undone.
     *
     * @param visit its number
     * @param begun whether it did a part of it
     */
    record LeftUndone(int visit, boolean begun) implements Why {}

    /** What needs no figures. */
    enum Known implements Why {
      /** Another practice file was named. */
      OTHER_PRACTICE,
      /** What is left does not fit into the visits to come. */
      TOO_LITTLE_ROOM,
      /** What is left fits into fewer visits. */
      FEWER_VISITS_DO,
      /** Nothing is left for the visit. */
      NOTHING_LEFT,
      /** The visits to come were put together anew. */
      PUT_TOGETHER_ANEW,
      /** New findings ask for it. */
      FINDINGS_ASK,
      /** New findings were charted. */
      NEW_FINDINGS,
      /** It was done early. */
      DONE_EARLY,
      /** A part of it was done early. */
      PARTLY_DONE_EARLY,
      /** The practice's figures have changed. */
      OTHER_FIGURES,
      /** The visit's work has changed. */
      OTHER_WORK,
      /** What must be numb has changed. */
      OTHER_NUMBING
    }
  }
}
