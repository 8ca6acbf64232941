package quadrille.plan.planning;

import java.util.List;

/**
 * A course that the solver took for legal broke a rule on second reading. It is never shown; the
 * program is at fault.
 */
public final class AuditFailedException extends IllegalStateException {
  private static final long serialVersionUID = 1L;

  public AuditFailedException(List<String> findings) {
    super(
        "A plan failed its audit and is not shown. Please report this with the chart:\n  "
            + String.join("\n  ", findings));
  }
}
