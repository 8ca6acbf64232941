package quadrille.cli;

/** Ends a command with a message for its user and an exit status. */
final class StopException extends Exception {
  private static final long serialVersionUID = 1L;

  private final int status;

  private StopException(int status, String message) {
    super(message);
    this.status = status;
  }

  /** No plan keeps every hard rule. */
  static StopException refused(String message) {
    return new StopException(Status.REFUSED, message);
  }

  /** The command was used wrongly. */
  static StopException usage(String message) {
    return new StopException(Status.USAGE, message);
  }

  /** A file cannot be read or written. */
  static StopException file(String message) {
    return new StopException(Status.FILE, message);
  }

  /** The exit status. */
  int status() {
    return status;
  }
}
