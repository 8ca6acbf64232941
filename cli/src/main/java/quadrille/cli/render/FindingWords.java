package quadrille.cli.render;

import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.Practice;
import quadrille.treatment.record.Given;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.VisitRecordReader;

/** What a visit gave and found, in words. */
public final class FindingWords {

  private FindingWords() {}

  /** A finding in words, its tooth by this numbering. */
  public static String finding(Observation finding, Numbering numbering, Practice practice) {
    if (finding instanceof Observation.Depth depth) {
      Boolean bleeding = depth.bleeding();
      return numbering.name(depth.tooth())
          + " "
          + depth.aspect().word()
          + " "
          + VisitRecordReader.sites().get(depth.site())
          + " "
          + depth.depthMm()
          + " mm"
          + (bleeding == null ? "" : bleeding ? ", bleeding" : ", no bleeding");
    }
    if (finding instanceof Observation.FailedInjection failed) {
      Double minutes = failed.minutes();
      return "the "
          + Words.injection(failed.ref(), numbering, practice)
          + " did not take"
          + (minutes == null ? "" : ", which kept the visit " + Words.number(minutes, 1) + " min");
    }
    if (finding instanceof Observation.Pus pus) {
      return numbering.name(pus.tooth()) + " " + pus.aspect().word() + " pus";
    }
    return "a sleeve broke at " + numbering.name(((Observation.BrokenSleeve) finding).tooth());
  }

  /** An injection, its tooth by this numbering. */
  public static String given(Given given, Numbering numbering, Practice practice) {
    return Words.injection(given.ref(), numbering, practice)
        + " "
        + Words.number(given.ml(), 2)
        + " mL "
        + Words.agent(given.agent(), practice);
  }
}
