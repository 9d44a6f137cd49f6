namespace BosFlow.Cli.Doctor;

/// <summary>One line about the machine.</summary>
/// <param name="Name">What was looked at.</param>
/// <param name="State">What was found.</param>
/// <param name="Finding">The finding in words.</param>
/// <param name="Remedy">The command that mends it, or what to do; null where nothing is to be done.</param>
internal sealed record MachineCheck(string Name, CheckState State, string Finding, string? Remedy = null);
