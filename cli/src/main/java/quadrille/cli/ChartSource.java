package quadrille.cli;

import org.jspecify.annotations.Nullable;

/** Hands out charts one by one. */
interface ChartSource {

  /**
   * The next chart, not yet read as a document; null after the last.
   *
   * @throws StopException where the source itself cannot be read on
   */
  @Nullable ChartItem next() throws StopException;
}
