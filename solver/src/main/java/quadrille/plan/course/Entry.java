package quadrille.plan.course;

import java.util.List;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;

/** One stretch of a visit's clock. Each starts where the one before it ended; the first at 0. */
public sealed interface Entry {

  /** From the start of the visit. */
  int startSecond();

  /** Length, 1 or more. */
  int seconds();

  /** As written in a plan file: setup, inject, wait, change-tip, reposition, debride or close. */
  String word();

  /** The second at which it ends. */
  default int endSecond() {
    return startSecond() + seconds();
  }

  /** Set-up of the room, seating and talking. */
  record SetUp(int startSecond, int seconds) implements Entry {
    @Override
    public String word() {
      return "setup";
    }
  }

  /**
   * One injection, or pocket gel put into one aspect of an area.
   *
   * @param what as {@link GivenInjection#words()}, or the gel's name, the area and the aspect
   */
  record Inject(int startSecond, int seconds, String what) implements Entry {
    @Override
    public String word() {
      return "inject";
    }
  }

  /**
   * Waiting for numbness.
   *
   * @param what what is waited for
   */
  record Wait(int startSecond, int seconds, String what) implements Entry {
    @Override
    public String word() {
      return "wait";
    }
  }

  /**
   * A tip change.
   *
   * @param to the insert that is put on
   */
  record ChangeTip(int startSecond, int seconds, String to) implements Entry {
    @Override
    public String word() {
      return "change-tip";
    }
  }

  /**
   * Moving to another area or aspect.
   *
   * @param to where to
   */
  record Reposition(int startSecond, int seconds, String to) implements Entry {
    @Override
    public String word() {
      return "reposition";
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
      String area,
      StepAspect aspect,
      Pass pass,
      String insert,
      Power power,
      boolean needsNumb,
      List<Tooth> teeth)
      implements Entry {
    @Override
    public String word() {
      return "debride";
    }
  }

  /** Close: rinse, instructions, notes. */
  record Close(int startSecond, int seconds) implements Entry {
    @Override
    public String word() {
      return "close";
    }
  }
}
