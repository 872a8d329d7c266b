using System.CommandLine;
using BrassVox.Audio;

namespace BrassVox.App.Cli;

/// <summary><c>brassvox devices</c>: what the machine can play on and record from.</summary>
internal static class DevicesCommand
{
    public static Command Build(IAudioSystem audio)
    {
        Option<bool> json = CommonOptions.Json();
        Command command = new("devices", "List the sound devices that can be asked for") { json };
        command.SetAction(arguments =>
        {
            IReadOnlyList<AudioDevice> devices = audio.ListDevices();
            if (arguments.GetValue(json))
            {
                Console.Out.Write(CliJson.Text(devices));
            }
            else if (devices.Count == 0)
            {
                Console.Error.WriteLine($"brassvox: no sound device was found ({audio.BackEnd}). Files can be rendered and measured all the same.");
            }
            else
            {
                foreach (AudioDevice device in devices)
                {
                    string use = (device.IsOutput, device.IsInput) switch { (true, true) => "play record", (true, false) => "play       ", _ => "     record" };
                    Console.Out.Write($"{(device.IsDefault ? '*' : ' ')} {use}  {device.Id,-24}  {device.Name}\n");
                }
            }

            return ExitCode.Done;
        });
        return command;
    }
}
