package quadrille.plan.course;

import java.util.List;
import quadrille.facts.chart.AreaRef;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Frame;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** One stretch of a visit's clock. Each starts where the one before it ended; the first at 0. */
public sealed interface Entry {

  /** From the start of the visit. */
  int startSecond();

  /** Length, 1 or more. */
  int seconds();

  Kind kind();

  /** The second at which it ends. */
  default int endSecond() {
    return startSecond() + seconds();
  }

  /** What a visit's time goes into. */
  enum Kind {
    SET_UP("setup"),
    HISTORY("history"),
    BLOOD_PRESSURE("blood-pressure"),
    CONSENT("consent"),
    RINSE("rinse"),
    CHARTING("charting"),
    INJECT("inject"),
    APPLY_GEL("apply-gel"),
    WAIT("wait"),
    CHANGE_TIP("change-tip"),
    REPOSITION("reposition"),
    DEBRIDE("debride"),
    PROBE("probe"),
    LOOK("look"),
    INSTRUCT("instruct"),
    LAST_LOOK("last-look"),
    CLOSE("close");

    private final String word;

    Kind(String word) {
      this.word = word;
    }

    /** As written in a plan file. */
    public String word() {
      return word;
    }
  }

  /** Set-up of the room, seating and talking. */
  record SetUp(int startSecond, int seconds) implements Entry {
    @Override
    public Kind kind() {
      return Kind.SET_UP;
    }
  }

  /** A part of what stands around the work, such as the history or the instruction. */
  record OfFrame(int startSecond, int seconds, Frame.Task task) implements Entry {
    @Override
    public Kind kind() {
      return switch (task) {
        case HISTORY -> Kind.HISTORY;
        case BLOOD_PRESSURE -> Kind.BLOOD_PRESSURE;
        case CONSENT -> Kind.CONSENT;
        case RINSE -> Kind.RINSE;
        case CHARTING -> Kind.CHARTING;
        case INSTRUCTION -> Kind.INSTRUCT;
        case LAST_LOOK -> Kind.LAST_LOOK;
      };
    }
  }

  /** One injection, which the visit lists with its agent and volume. */
  record Inject(int startSecond, int seconds, InjectionRef injection) implements Entry {
    @Override
    public Kind kind() {
      return Kind.INJECT;
    }
  }

  /**
   * Pocket gel put in for the step that comes next.
   *
   * @param gel its name
   */
  record ApplyGel(int startSecond, int seconds, String gel, AreaRef area, StepAspect aspect)
      implements Entry {
    @Override
    public Kind kind() {
      return Kind.APPLY_GEL;
    }
  }

  /** Waiting for numbness. */
  record Wait(int startSecond, int seconds, Awaited awaited) implements Entry {
    @Override
    public Kind kind() {
      return Kind.WAIT;
    }
  }

  /**
   * A tip change.
   *
   * @param to the insert that is put on
   */
  record ChangeTip(int startSecond, int seconds, String to) implements Entry {
    @Override
    public Kind kind() {
      return Kind.CHANGE_TIP;
    }
  }

  /** Moving to another area or aspect. */
  record Reposition(int startSecond, int seconds, AreaRef area, StepAspect aspect)
      implements Entry {
    @Override
    public Kind kind() {
      return Kind.REPOSITION;
    }
  }

  /**
   * A step of work.
   *
   * @param needsNumb whether it must be numb, by injection or gel
   * @param teeth the teeth swept
   */
  record Debride(
      int startSecond,
      int seconds,
      AreaRef area,
      StepAspect aspect,
      Pass pass,
      String insert,
      Power power,
      boolean needsNumb,
      List<Tooth> teeth)
      implements Entry {
    @Override
    public Kind kind() {
      return Kind.DEBRIDE;
    }
  }

  /**
   * Teeth with sites that were not probed so far are charted: before a step of the fine pass its
   * own, or at the end of a visit all of its areas'.
   *
   * @param areas where, in the order of the areas
   */
  record Probe(int startSecond, int seconds, List<AreaRef> areas, StepAspect aspect)
      implements Entry {
    public Probe {
      areas = List.copyOf(areas);
    }

    @Override
    public Kind kind() {
      return Kind.PROBE;
    }
  }

  /** A look at the bleeding of the first teeth before the visit goes on. */
  record Look(int startSecond, int seconds) implements Entry {
    @Override
    public Kind kind() {
      return Kind.LOOK;
    }
  }

  /** Close: notes, clearing the room. */
  record Close(int startSecond, int seconds) implements Entry {
    @Override
    public Kind kind() {
      return Kind.CLOSE;
    }
  }

  /**
   * An injection, gel, wait or move of a plan file of version 1, which knew words only, where they
   * say nothing that is known.
   *
   * @param kind inject, wait or reposition
   */
  record AsWritten(int startSecond, int seconds, Kind kind, String text) implements Entry {}
}
