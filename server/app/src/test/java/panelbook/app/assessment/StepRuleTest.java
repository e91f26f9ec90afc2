package panelbook.app.assessment;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.api.Test;

/** The rule of the service on simulated displays; our own simulation, no published source. The full table is printed by it. */
class StepRuleTest {

    @Test
    void displaysThatAgeAndHaveAWildRunNowAndThenTellNoSteps() {
        var still = new StepSimulation.Fleet(0, 0, 0.02, true);
        assertThat(StepSimulation.falseAlarms(still, 60, 60))
                .as("share of displays that told a step in sixty weeks")
                .isLessThanOrEqualTo(0.05);
    }

    @Test
    void aStepOfTwiceTheLimitIsToldByTheThirdRunAndBetweenTheRunsAroundIt() {
        var stepped = StepSimulation.of(new StepSimulation.Fleet(0.06, 0, 0.02, true), 80);
        assertThat(stepped.told()[1])
                .as("share told by one run: only where a wild one lies just before it")
                .isLessThan(0.03);
        assertThat(stepped.told()[3]).as("share told by the third run").isGreaterThan(0.87);
        assertThat(stepped.dated()).as("share of these dated exactly").isGreaterThan(0.95);
    }

    @Test
    void withoutACounterStepsAreToldOverTheClock() {
        var stepped = StepSimulation.of(new StepSimulation.Fleet(0, 0.006, 0.02, false), 60);
        assertThat(stepped.told()[3]).as("share told by the third run").isGreaterThan(0.9);
    }
}
