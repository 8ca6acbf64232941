package quadrille.plan.course;

import java.util.List;
import org.jspecify.annotations.Nullable;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Feature;
import quadrille.facts.chart.Tooth;

/** What of a visit deserves watching. */
public sealed interface WatchSite {

  /**
   * A tooth, and what of it is to be watched; at least one thing is.
   *
   * @param implant whether it is an implant
   * @param sites its deep sites and those that could not be probed, facial before lingual, distal
   *     to mesial
   * @param furcation 2 or 3; 0 where it is nothing to watch
   * @param mobility 2 or 3; 0 where it is nothing to watch
   * @param features that make it delicate, in the order of {@link Feature}
   */
  record OfTooth(
      Tooth tooth,
      boolean implant,
      List<Probed> sites,
      int furcation,
      int mobility,
      List<Feature> features)
      implements WatchSite {

    public OfTooth {
      sites = List.copyOf(sites);
      features = List.copyOf(features);
    }

    /** Whether there is nothing to watch. */
    public boolean empty() {
      return !implant && sites.isEmpty() && furcation == 0 && mobility == 0 && features.isEmpty();
    }
  }

  /**
   * One site.
   *
   * @param site 0 distal, 1 middle, 2 mesial
   * @param depthMm whole mm; null where it could not be probed
   */
  record Probed(Aspect aspect, int site, @Nullable Integer depthMm) {}

  /** As a plan file of version 1 has it, which knew words only. */
  record AsWritten(String text) implements WatchSite {}
}
