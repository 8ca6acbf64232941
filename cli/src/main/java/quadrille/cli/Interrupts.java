package quadrille.cli;

/** Tells a command that its user wants it to come to an end. */
@FunctionalInterface
interface Interrupts {

  /** Nobody interrupts. */
  Interrupts NONE = first -> () -> {};

  /** Ends the listening. */
  @FunctionalInterface
  interface Listening extends AutoCloseable {
    @Override
    void close();
  }

  /**
   * Listens until closed. The first interrupt is handed over, on a thread of its own; a second one
   * ends the process at once.
   */
  Listening listen(Runnable first);
}
