package quadrille.plan.work;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Deposit;
import quadrille.facts.chart.Site;
import quadrille.facts.chart.ToothChart;
import quadrille.facts.practice.Minutes;
import quadrille.facts.practice.Pass;
import quadrille.facts.practice.PassRules;
import quadrille.facts.practice.Practice;

/**
 * Which passes a tooth is due, by the practice's pass rules. A tooth is due a pass as a whole, on
 * both aspects. A site that could not be probed counts as deep enough for a fine pass, and as the
 * practice's provisional depth otherwise.
 */
public final class DuePasses {

  private final PassRules rules;
  private final Minutes minutes;

  public DuePasses(Practice practice) {
    this.rules = practice.passes();
    this.minutes = practice.minutes();
  }

  /**
   * The passes, in their order; empty for a tooth that needs no work or is not worked on (missing,
   * planned for extraction).
   */
  public Set<Pass> of(ToothChart tooth) {
    EnumSet<Pass> due = EnumSet.noneOf(Pass.class);
    if (!tooth.worked()) {
      return Collections.unmodifiableSet(due);
    }
    boolean deepOrBleeding =
        ChartFirst.unprobed(tooth)
            || bleeds(tooth)
            || deepest(tooth) >= rules.fineDepthMm().value();
    if (tooth.implant()) {
      if (deepOrBleeding || tooth.deposit() != Deposit.NONE) {
        due.add(Pass.IMPLANT_CARE);
      }
      return Collections.unmodifiableSet(due);
    }
    if (tooth.deposit().compareTo(rules.grossFrom()) >= 0
        || rules.grossFeatures().stream().anyMatch(tooth::has)) {
      due.add(Pass.GROSS);
    }
    if (deepOrBleeding || tooth.deposit().compareTo(rules.fineFrom()) >= 0) {
      due.add(Pass.FINE);
    }
    if (deepest(tooth) >= rules.finishingDepthMm().value()
        || rules.finishingFeatures().stream().anyMatch(tooth::has)) {
      due.add(Pass.FINISHING);
    }
    return Collections.unmodifiableSet(due);
  }

  private static boolean bleeds(ToothChart tooth) {
    return tooth.sites().stream().anyMatch(Site::bleeding);
  }

  private double deepest(ToothChart tooth) {
    return Math.max(
        Depths.deepest(tooth, Aspect.FACIAL, minutes),
        Depths.deepest(tooth, Aspect.LINGUAL, minutes));
  }
}
