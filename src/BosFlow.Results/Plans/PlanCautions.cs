namespace BosFlow.Results.Plans;

/// <summary>What can hurt somebody who builds what a plan says.</summary>
public static class PlanCautions
{
    /// <summary>Sentences, short enough for the foot of a sheet.</summary>
    public static IReadOnlyList<string> Sentences { get; } =
    [
        "Jet exhaust burns, melts and ignites metres behind the nozzle; hot surfaces stay hot. Board, camera and people stay outside; foam and paper burn.",
        "Fuel: no ignition source, ventilation, the right extinguisher within reach. Lithium batteries: attended, undamaged, away from heat.",
        "Laser cutters and hot wires: foam and plastics give toxic fumes and catch fire; use extraction, the right material, and never leave them alone.",
        "Board and camera change mass, balance and structure of an aircraft: permission to fly is for licensed people under the codes that hold where you are.",
        "A plan is reckoned from formulas. It clears nothing and certifies nothing; follow makers' instructions and local codes.",
    ];
}
