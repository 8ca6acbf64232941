package quadrille.treatment.calibration;

import java.util.List;
import org.apache.commons.statistics.distribution.TDistribution;
import org.jspecify.annotations.Nullable;

/**
 * A clinician who became quicker: a straight line through the logarithm of their visits' minutes
 * over those expected, by the logarithm of the visit's number (the power law of practice). Shown
 * only where chance alone would show such a line less than once in a hundred.
 *
 * @param visits in their order of time
 * @param first by the line, the first visit's time as a multiple of what their mean speed tells
 * @param last by the line, the last visit's
 */
public record Learning(int visits, double first, double last) {

  /** Fewer visits show no line. */
  static final int FEWEST = 8;

  private static final double CHANCE = 0.01;

  /**
   * @param residuals logarithms of recorded over expected, in order of time
   * @return null where they show none
   */
  static @Nullable Learning of(List<Double> residuals) {
    int n = residuals.size();
    if (n < FEWEST) {
      return null;
    }
    double meanX = 0;
    double meanY = 0;
    for (int i = 0; i < n; i++) {
      meanX += Math.log(i + 1.0) / n;
      meanY += residuals.get(i) / n;
    }
    double xx = 0;
    double xy = 0;
    double yy = 0;
    for (int i = 0; i < n; i++) {
      double x = Math.log(i + 1.0) - meanX;
      double y = residuals.get(i) - meanY;
      xx += x * x;
      xy += x * y;
      yy += y * y;
    }
    double slope = xy / xx;
    double error = Math.sqrt(Math.max(1e-12, yy - slope * xy) / (n - 2) / xx);
    boolean shown =
        slope < 0 && TDistribution.of(n - 2).cumulativeProbability(slope / error) < CHANCE;
    return shown
        ? new Learning(
            n, Math.exp(meanY - slope * meanX), Math.exp(meanY + slope * (Math.log(n) - meanX)))
        : null;
  }
}
