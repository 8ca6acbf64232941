package quadrille.facts.chart;

import java.util.List;

/** The three sites of one aspect of a tooth. */
public record AspectReading(Site distal, Site middle, Site mesial) {

  /** Distal, middle, mesial. */
  public List<Site> sites() {
    return List.of(distal, middle, mesial);
  }

  /** The same depth at all three sites. */
  public static AspectReading even(int depthMm) {
    Site site = Site.ofDepth(depthMm);
    return new AspectReading(site, site, site);
  }
}
