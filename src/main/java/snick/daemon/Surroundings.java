package snick.daemon;

import java.time.Clock;
import java.util.concurrent.BlockingQueue;
import java.util.function.Consumer;
import snick.daemon.link.HostTime;

/**
 * What readers and keeper work among.
 *
 * @param queue finished work on its way from the readers to the keeper; bounded
 * @param clock wall clock
 * @param time monotonic time
 * @param faults what went wrong
 * @param tell takes one line for the person, on any thread
 */
record Surroundings(
    BlockingQueue<Work> queue,
    Clock clock,
    HostTime time,
    FaultLog faults,
    Consumer<String> tell) {}
