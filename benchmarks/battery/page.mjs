export function writeBattery() {}
