package quadrille.plan.planning;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import quadrille.facts.chart.Area;
import quadrille.plan.course.CourseTerm;
import quadrille.plan.staging.Staged;
import quadrille.plan.staging.Stager;

/** Says why each area went where it did, by trying each elsewhere. */
final class Explainer {
  private final Stager stager;

  Explainer(Stager stager) {
    this.stager = stager;
  }

  List<Explanation.OfArea> explain(Staged staged) {
    return staged.layouts().size() == 1
        ? List.of()
        : staged.staging().areas().stream().map(area -> explain(staged, area)).toList();
  }

  private Explanation.OfArea explain(Staged staged, Area area) {
    SortedSet<Integer> at = staged.visitsOf(area);
    List<Explanation.Elsewhere> elsewhere = new ArrayList<>();
    for (int visit = 1; visit <= staged.layouts().size(); visit++) {
      if (!at.equals(Set.of(visit))) {
        elsewhere.add(
            elsewhere(visit, staged, stager.rate(staged.staging(), staged.setsWith(area, visit))));
      }
    }
    return new Explanation.OfArea(area, at, elsewhere);
  }

  private static Explanation.Elsewhere elsewhere(int visit, Staged staged, Staged other) {
    Map<CourseTerm, Long> changes = new EnumMap<>(CourseTerm.class);
    other
        .terms()
        .forEach(
            (term, seconds) -> {
              long change = seconds - staged.terms().getOrDefault(term, 0L);
              if (change != 0) {
                changes.put(term, change);
              }
            });
    return new Explanation.Elsewhere(
        visit, other.brokenRules(), other.seconds() - staged.seconds(), changes);
  }
}
