package quadrille.facts.chart;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * A depth that may be a slip of whoever typed it. It is shown where it stands, and nothing is
 * refused for it.
 *
 * @param site 0 distal, 1 middle, 2 mesial
 * @param depthMm as charted
 * @param others the deepest of the tooth's other sites, in mm
 * @param before what the mouth's last chart had there, in mm; null where the depth is doubted for
 *     what lies around it
 */
public record UnlikelyDepth(
    Tooth tooth, Aspect aspect, int site, int depthMm, int others, @Nullable Integer before) {

  /** So much deeper than all else of its tooth, mm. An assumption. */
  private static final int LONE_MM = 5;

  /** So much another depth than in the last chart, mm. An assumption. */
  private static final int JUMP_MM = 4;

  /**
   * Depths worth a second look.
   *
   * @param before the last chart of the mouth, where there is one
   */
  public static List<UnlikelyDepth> of(List<ToothChart> teeth, Optional<Chart> before) {
    List<UnlikelyDepth> unlikely = new ArrayList<>();
    for (ToothChart tooth : teeth) {
      for (Aspect aspect : Aspect.values()) {
        List<Site> sites = tooth.sites(aspect);
        for (int at = 0; at < sites.size(); at++) {
          @Nullable Integer depth = sites.get(at).depthMm();
          if (depth == null) {
            continue;
          }
          int others = deepestBeside(tooth, aspect, at);
          @Nullable Integer last = last(before, tooth, aspect, at);
          if (last != null && Math.abs(depth - last) >= JUMP_MM) {
            unlikely.add(new UnlikelyDepth(tooth.tooth(), aspect, at, depth, others, last));
          } else if (depth - others >= LONE_MM) {
            unlikely.add(new UnlikelyDepth(tooth.tooth(), aspect, at, depth, others, null));
          }
        }
      }
    }
    return unlikely;
  }

  private static int deepestBeside(ToothChart tooth, Aspect aspect, int at) {
    int deepest = 0;
    for (Aspect side : Aspect.values()) {
      List<Site> sites = tooth.sites(side);
      for (int i = 0; i < sites.size(); i++) {
        @Nullable Integer depth = sites.get(i).depthMm();
        if (depth != null && (side != aspect || i != at)) {
          deepest = Math.max(deepest, depth);
        }
      }
    }
    return deepest;
  }

  private static @Nullable Integer last(
      Optional<Chart> before, ToothChart tooth, Aspect aspect, int at) {
    List<Site> sites =
        before
            .flatMap(chart -> chart.tooth(tooth.tooth()))
            .map(one -> one.sites(aspect))
            .orElse(List.of());
    return sites.isEmpty() ? null : sites.get(at).depthMm();
  }
}
