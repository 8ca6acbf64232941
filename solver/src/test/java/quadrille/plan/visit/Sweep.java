package quadrille.plan.visit;

import java.util.Locale;
import java.util.SortedSet;
import java.util.TreeSet;
import quadrille.facts.chart.Tooth;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.Power;
import quadrille.plan.work.StepAspect;
import quadrille.plan.work.Target;

/**
 * A step as a test describes it. Each method gives a changed copy.
 *
 * @param area such as {@code UR posterior}, or {@code UR posterior 17-16} for a part of one
 * @param needs what must be numb by injection
 */
public record Sweep(
    String area,
    Pass pass,
    StepAspect aspect,
    String insert,
    Power power,
    int seconds,
    SortedSet<Target> needs,
    boolean gel) {

  public static Sweep gross(String area, StepAspect aspect, int seconds) {
    return of(area, Pass.GROSS, aspect, "standard straight", seconds);
  }

  public static Sweep fine(String area, StepAspect aspect, int seconds) {
    return of(area, Pass.FINE, aspect, "slim straight", seconds);
  }

  public static Sweep finishing(String area, int seconds) {
    return of(area, Pass.FINISHING, StepAspect.BOTH, "finest straight", seconds);
  }

  public static Sweep implant(String area, int seconds) {
    return of(area, Pass.IMPLANT_CARE, StepAspect.BOTH, "sleeved for implants", seconds);
  }

  private static Sweep of(String area, Pass pass, StepAspect aspect, String insert, int seconds) {
    return new Sweep(area, pass, aspect, insert, Power.LOW, seconds, new TreeSet<>(), false);
  }

  /** With an insert of the default practice, whether or not it is meant for the pass. */
  public Sweep with(String other) {
    return new Sweep(area, pass, aspect, other, power, seconds, needs, gel);
  }

  public Sweep at(Power other) {
    return new Sweep(area, pass, aspect, insert, other, seconds, needs, gel);
  }

  /** Needs numbness, such as {@code 16 pulp}, {@code 16 facial}, {@code 16 mesiobuccal root}. */
  public Sweep numb(String... targets) {
    SortedSet<Target> more = new TreeSet<>(needs);
    for (String target : targets) {
      String[] parts = target.split(" ", 2);
      more.add(
          new Target(
              Tooth.ofIso(Integer.parseInt(parts[0])),
              Target.Kind.valueOf(parts[1].replace(' ', '_').toUpperCase(Locale.ROOT))));
    }
    return new Sweep(area, pass, aspect, insert, power, seconds, more, gel);
  }

  public Sweep withGel() {
    return new Sweep(area, pass, aspect, insert, power, seconds, needs, true);
  }
}
