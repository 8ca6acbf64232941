package quadrille.cli.render.page;

import quadrille.facts.chart.Chart;
import quadrille.plan.course.GivenInjection;

/** Where an injection is given, the tooth named as the chart names it. */
final class InjectionWords {

  private InjectionWords() {}

  static String where(GivenInjection given, Chart chart) {
    return given.tooth() == null
        ? given.words()
        : given.injection() + " " + chart.numbering().name(given.tooth());
  }
}
